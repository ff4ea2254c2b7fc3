export const modes = {
  title: 'What is shown',
  names: { reading: 'Reading', photos: 'Tray', plan: 'Plan', swatches: 'Swatches', practice: 'Practice' },
  /** The first of them, while no photo is open. */
  start: 'Start',
  without: 'Without a photo',
  openPhotos: 'Several photos',
  openPlan: 'Plan by typed colours',
  openSwatches: 'My swatches',
  openPractice: 'Practice',
};
