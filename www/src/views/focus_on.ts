/** Moves the focus to the first of these that is there, once the page has followed: what was pressed may be gone. */
export function focusOn(...ids: string[]): void {
  setTimeout(() => ids.map((id) => document.getElementById(id)).find((e) => e)?.focus());
}
