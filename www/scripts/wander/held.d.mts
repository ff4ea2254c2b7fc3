export function heldOf(text: string): { own: number; code: number; pictures: number; driver: number };
