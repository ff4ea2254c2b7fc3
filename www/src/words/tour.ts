export const tour = {
  offer: 'Show me around – 40 seconds',
  menu: 'Show me around',
  label: 'A look around',
  at: (n: number, of: number) => `${n} of ${of}`,
  next: 'Next',
  back: 'Back',
  leave: 'Leave',
  done: 'Done',
  stations: {
    steps: {
      photo: { title: 'The photo', text: 'Card, tabs and teeth are found and outlined. Tap one to change it; two fingers or the wheel zoom.' },
      light: { title: 'Can it be trusted?', text: 'The light is checked first. If the photo has to be taken again, this says so, and no number is shown.' },
      answer: { title: 'The answer', text: 'For each third: the nearest tab, how far it is away, and the doubt of that number.' },
      paint: { title: 'What to paint', text: 'Which way the crown has to go, third by third. The plan makes coats of it, from your own fired swatches.' },
      depth: { title: 'More when you want it', text: 'All tabs in order, every number and what the reading stands on are one tap away, and close again.' },
      patient: { title: 'For the patient', text: 'A calm screen with two pictures and one sentence, without numbers or names.' },
    },
  },
};
