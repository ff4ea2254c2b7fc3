/** Erasing everything: asked twice; then the page is done, until it begins anew. */
import { useSignal } from '@preact/signals';
import { render } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { leaveUnasked } from '../state/offline';
import { eraseKept, type Place } from '../state/offline_erase';
import { words } from '../words';

/** Stands in the place of the page: nothing of it goes on that could keep something again. */
function Erased() {
  const left = useSignal<readonly Place[] | null>(null);
  const again = async () => {
    left.value = null;
    left.value = await eraseKept();
  };
  useEffect(() => void again(), []);
  const t = words.privacy;
  return (
    <main class="start erased">
      <div role="status">
        <h1>{left.value ? (left.value.length ? t.notErased : t.erased) : t.erasing}</h1>
        {left.value?.map((place) => <p key={place}>{t.left.texts[place]}</p>)}
      </div>
      {left.value && (
        <>
          {left.value.length === 0 && <p>{t.erasedHint}</p>}
          <div class="chips">
            {left.value.length > 0 && (
              <button type="button" onClick={() => void again()}>
                {t.again}
              </button>
            )}
            <button type="button" onClick={() => location.reload()}>
              {t.anew}
            </button>
          </div>
        </>
      )}
    </main>
  );
}

function eraseAll(): void {
  leaveUnasked();
  render(<Erased />, document.getElementById('page')!);
}

export function Erase() {
  const asking = useSignal(false);
  const no = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    no.current?.focus();
    no.current?.scrollIntoView({ block: 'nearest' });
  }, [asking.value]);
  const t = words.privacy;
  if (!asking.value) {
    return (
      <button type="button" onClick={() => (asking.value = true)}>
        {t.erase}
      </button>
    );
  }
  return (
    <div class="erase-ask" role="group" aria-labelledby="erase-ask">
      <p id="erase-ask">{t.eraseAsk}</p>
      <div class="chips">
        <button type="button" onClick={eraseAll}>
          {t.eraseYes}
        </button>
        <button type="button" ref={no} onClick={() => (asking.value = false)}>
          {t.eraseNo}
        </button>
      </div>
    </div>
  );
}
