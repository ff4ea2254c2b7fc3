/** The first stain advice in sentences, third by third, and what must be said with it. */
import { scene } from '../state/desk';
import { photoRetake, sheet } from '../state/sheet';
import { words } from '../words';

export function Advice() {
  const advice = sheet.value?.advice;
  if (!advice || advice.zones.length === 0 || photoRetake.value) return null;
  return (
    <section class="advice">
      <h2>{words.sheet.how(words.names.region(scene.value, advice.restoration))}</h2>
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
          <li key={c}>{c}</li>
        ))}
      </ul>
    </section>
  );
}
