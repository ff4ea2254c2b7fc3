export const modes = {
  title: 'What is shown',
  names: { reading: 'Reading', plan: 'Plan', swatches: 'Swatches', practice: 'Practice' },
  /** The first of them, while no photo is open. */
  start: 'Start',
  without: 'Without a photo',
  openPlan: 'Plan by typed colours',
  openSwatches: 'My swatches',
  openPractice: 'Practice',
};
