/** Moves the focus once the page has followed: what was pressed may be gone. */
export function focusOn(id: string): void {
  setTimeout(() => document.getElementById(id)?.focus());
}
