/** Stands in for `offline/erase_copy`: there is no copy. */
export const eraseCopy = async (): Promise<void> => {};
