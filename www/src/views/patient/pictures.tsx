/** Both teeth upright, as high as each other, edge to edge on the neutral surround. */
import type { Preview } from '../../engine/types';
import { said } from '../../state/patient/facts';
import { after, look, painting, shown } from '../../state/patient/looks';
import { thing } from '../../state/patient/thing';
import { scene } from '../../state/desk';
import { sheet } from '../../state/sheet';
import { words } from '../../words';
import { Pixels } from '../pixels';

/** As they stand in the photo: whether the restoration is the left one. */
function ownIsLeft(): boolean {
  const advice = sheet.value?.advice;
  const middle = (id: string | undefined) => {
    const xs = scene.value.regions.find((r) => r.id === id)?.outline.map(([x]) => x) ?? [0];
    return xs.reduce((a, b) => a + b, 0) / xs.length;
  };
  return middle(advice?.restoration) < middle(advice?.target);
}

const shape = ({ width, height }: Preview): number => width / height;

export function Pictures() {
  const t = words.patient;
  const [both, facts, over] = [shown.value, said.value, look.value === 'painted' ? after.value : null];
  if (!both || !facts) return <p class="patient-pictures">{t.waiting}</p>;
  const [tooth, own] = [t.tooth(facts.beside), t.yours(thing.value)];
  const [left, right] = [shape(both.target), shape(both.restoration)];
  return (
    <div class="patient-pictures">
      <div class="patient-pair" style={{ '--shape': `${left + right}`, gridTemplateColumns: `${left}fr ${right}fr`, direction: ownIsLeft() ? 'rtl' : 'ltr' }}>
        <div role="img" aria-label={t.picture(tooth, look.value === 'grey' ? 'grey' : 'now')}>
          <Pixels picture={both.target} />
        </div>
        <div role="img" aria-label={t.picture(own, over && painting.value === 0 ? 'now' : look.value)}>
          <Pixels picture={both.restoration} />
          {over && <Pixels picture={over} style={painting.value < 100 ? { opacity: painting.value / 100 } : {}} />}
        </div>
        <span>{tooth}</span>
        <span>{own}</span>
      </div>
    </div>
  );
}
