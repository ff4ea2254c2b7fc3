/** What page and service worker say to each other. */
export type Wish = 'take-over';
export type Answer = 'taken' | 'other-windows';
