/** The first stain advice in sentences, third by third, and what must be said with it. */
import { scene } from '../state/desk';
import { photoRetake, sheet } from '../state/sheet';
import { words } from '../words';
import { Depth } from './depth';

export function Advice() {
  const advice = sheet.value?.advice;
  if (!advice || advice.zones.length === 0 || photoRetake.value) return null;
  return (
    <Depth name="how" title={words.sheet.how(words.names.region(scene.value, advice.restoration))}>
      <dl>
        {advice.zones.map(({ zone, steps }) => (
          <div key={zone}>
            <dt>{words.names.zone[zone]}</dt>
            <dd>
              {steps.map((step) => (
                <p key={step}>{words.names.said(scene.value, step)}</p>
              ))}
            </dd>
          </div>
        ))}
      </dl>
      <h3>{words.sheet.cautions}</h3>
      <ul>
        {advice.cautions.map((c) => (
          <li key={c}>{words.names.said(scene.value, c)}</li>
        ))}
      </ul>
    </Depth>
  );
}
