/** What must be said with every plan: what it cannot reach, and the cautions. */
import type { Plan } from '../../engine/types';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { findingsOf, inShort } from './findings';

const ID = 'shortfalls';

/** Under the head of the plan, so that nobody has to come upon it. */
export function ShortfallLine({ plan: { shortfalls } }: { plan: Plan }) {
  const text = inShort(shortfalls);
  if (!text) return null;
  const go = () => {
    const there = document.getElementById(ID);
    there?.scrollIntoView({ block: 'start' });
    there?.focus({ preventScroll: true });
  };
  return <button type="button" class="to-shortfalls" onClick={go}>{text}</button>;
}

export function Shortfalls({ plan: { shortfalls } }: { plan: Plan }) {
  const t = words.plan;
  if (shortfalls.length === 0) return null;
  return (
    <section class="shortfalls">
      <h2 id={ID} tabIndex={-1}>{t.shortfalls}</h2>
      {findingsOf(shortfalls).map(({ code, thirds, text, instead }) => (
        <div key={code + thirds} class="shortfall" data-code={code}>
          <h3>{t.shortfall[code]}</h3>
          <p>{t.oneFinding(thirds, text)}</p>
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
      <ul>{cautions.map((c) => <li key={c}>{engineWords(c)}</li>)}</ul>
    </section>
  );
}
