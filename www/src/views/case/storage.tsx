/** How much room the kept cases take, and whether the browser may clear them. */
import { askToKeep, isShort, space } from '../../state/case/space';
import { megabytes } from '../../state/case/sizes';
import { words } from '../../words';

export function Storage({ any, say }: { any: boolean; say: (text: string) => void }) {
  const t = words.cases;
  const now = space.value;
  const ask = () => void askToKeep().then((promised) => say(promised ? t.nowPromised : t.denied));
  return (
    <section class="case-storage">
      <h3>{t.storage}</h3>
      <p>{now ? t.used(megabytes(now.used), megabytes(now.left)) : t.unknown}</p>
      {now && isShort(now) && (
        <div class="reason">
          <strong>{t.shortTitle(megabytes(now.left))}</strong>
          <p>{t.shortText} {t.shortAdvice}</p>
        </div>
      )}
      {now?.promised === true && <p>{t.promised}</p>}
      {now?.promised === false && any && <p class="case-warning">{t.notPromised}</p>}
      {now && now.promised === null && any && <p class="case-warning">{t.cannotPromise}</p>}
      {now?.promised === false && <button type="button" onClick={ask}>{t.ask}</button>}
    </section>
  );
}
