/** The program's proposal, as a question; and then what is compared with what. */
import { doc, scene } from '../state/desk';
import { acceptProposed, tapAnother, thereIsNone } from '../state/role_edit';
import { pendingRestoration } from '../state/roles';
import { target } from '../state/sheet';
import { words } from '../words';

export function RestorationQuestion() {
  const region = pendingRestoration(doc.value);
  if (!region) return null;
  const t = words.found;
  return (
    <>
      <p class="say">{t.ask(words.names.region(scene.value, region.id))}</p>
      <p class="hint">{t.why}</p>
      <div class="now-buttons">
        <button type="button" onClick={acceptProposed}>
          {t.yes}
        </button>
        <button type="button" onClick={tapAnother}>
          {t.another}
        </button>
        <button type="button" onClick={thereIsNone}>
          {t.none}
        </button>
      </div>
    </>
  );
}

/** "Tooth e is compared with Tooth d", where there are several to choose from. */
export function Against() {
  const { regions } = scene.value;
  const restoration = regions.find((r) => r.kind === 'restoration');
  const against = target.value;
  if (!restoration || against === undefined || regions.filter((r) => r.kind === 'tooth').length < 2) return null;
  const name = (id: string) => words.names.region(scene.value, id);
  return (
    <p class="hint">
      {words.found.against(name(restoration.id), name(against))} {words.found.againstHow}
    </p>
  );
}
