/** About what is typed into fields. */
export const typed = {
  number: 'This is not a number.',
  range: (min: string, max: string, whole: boolean) => `${whole ? 'A whole number from' : 'From'} ${min} to ${max}.`,
  holds: (value: string) => `${value} stays in use.`,
  axis: (axis: string, min: string, max: string) => `${axis}: from ${min} to ${max}`,
  full: (most: number) => `At most ${most} letters.`,
};
