/** What must be said with every plan: what it cannot reach, and the cautions. */
import type { Plan } from '../../engine/types';
import { words } from '../../words';

export function Shortfalls({ plan: { shortfalls } }: { plan: Plan }) {
  const t = words.plan;
  if (shortfalls.length === 0) return null;
  return (
    <section class="shortfalls">
      <h2>{t.shortfalls}</h2>
      {shortfalls.map(({ code, zone, text, instead }) => (
        <div key={`${code} ${zone}`} class="shortfall" data-code={code}>
          <h3>{t.shortfall[code]}</h3>
          <p>{text}</p>
          {instead.length > 0 && (
            <>
              <p class="instead">{t.instead}</p>
              <ul>{instead.map((way) => <li key={way}>{way}</li>)}</ul>
            </>
          )}
        </div>
      ))}
    </section>
  );
}

export function Cautions({ plan: { cautions } }: { plan: Plan }) {
  return (
    <section class="cautions">
      <h2>{words.plan.cautions}</h2>
      <ul>{cautions.map((c) => <li key={c}>{c}</li>)}</ul>
    </section>
  );
}
