export const clock = {
  title: 'Drying clock',
  start: 'Lips retracted',
  startLong: 'Press when lips and cheeks are held away; it counts how long the teeth have been drying',
  stop: 'Stop',
  stopLong: 'Stop the drying clock',
  reset: 'Reset',
  resetLong: 'Set the drying clock to zero',
  running: (time: string) => `Drying for ${time}`,
  warning: 'Over 2 minutes: teeth get lighter as they dry. Take the shade within 1–2 minutes of retraction; after that let them re-wet, or read another day.',
  why: 'Sources',
  sources: [
    'J Dent 2021;105:103560: after 2 minutes the mean change (ΔE00) is above the perceptibility threshold.',
    'J Esthet Restor Dent 2019;31:118–23: after 1 minute 87 % of teeth have changed by more than 0.8.',
    'J Esthet Restor Dent 2021;33:364–70.',
  ],
};
