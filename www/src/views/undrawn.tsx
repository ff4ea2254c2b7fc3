/** Stands in the place of a page that cannot be drawn: what is kept stays, and there are ways to go on. */
import { leaveAside } from '../state/case/keeper';
import { words } from '../words';

export function Undrawn() {
  const t = words.cases.undrawn;
  const aside = async () => {
    await leaveAside();
    location.reload();
  };
  return (
    <main class="start undrawn">
      <div role="alert">
        <h1>{t.title}</h1>
        <p>{t.text}</p>
      </div>
      <div class="chips">
        <button type="button" onClick={() => location.reload()}>
          {t.again}
        </button>
        <button type="button" onClick={() => void aside()}>
          {t.aside}
        </button>
      </div>
    </main>
  );
}
