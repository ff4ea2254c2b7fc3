/** The list of keys. */
import { settings } from '../state/settings';
import { words } from '../words';
import { KEY_GROUPS, signOf } from './keys_list';

const nameOf = (key: string): string => words.keys.names.steps[key as keyof typeof words.keys.names.steps] ?? signOf(key);

/** "Ctrl + Z"; the plus key itself has no parts. */
const partsOf = (combination: string): string[] => (combination === '+' ? ['+'] : combination.split('+'));

function Combination({ keys }: { keys: string }) {
  return (
    <>
      {partsOf(keys).map((key, i) => (
        <>
          {i > 0 && ' + '}
          <kbd>{nameOf(key)}</kbd>
        </>
      ))}
    </>
  );
}

/** Four arrows are one thing to say. */
function Keys({ keys }: { keys: readonly string[] }) {
  const shift = keys.every((k) => k.startsWith('Shift+Arrow'));
  if (keys.length === 4 && (shift || keys.every((k) => k.startsWith('Arrow')))) {
    return (
      <>
        {shift && (
          <>
            <kbd>{nameOf('Shift')}</kbd>
            {' + '}
          </>
        )}
        <kbd>{keys.map((k) => signOf(k.replace('Shift+', ''))).join(' ')}</kbd>
      </>
    );
  }
  return (
    <>
      {keys.map((k, i) => (
        <>
          {i > 0 && words.keys.or}
          <Combination keys={k} />
        </>
      ))}
    </>
  );
}

export function KeysDialog() {
  const t = words.keys;
  return (
    <>
      <p class="hint">{t.intro}</p>
      {settings.value.singleKeys === false && <p>{t.singleOff}</p>}
      <p class="hint">{t.pointer}</p>
      {(Object.keys(KEY_GROUPS) as (keyof typeof KEY_GROUPS)[]).map((group) => (
        <table key={group} class="key-table">
          <caption>{t.groups.texts[group]}</caption>
          <thead class="unseen">
            <tr>
              <th scope="col">{t.key}</th>
              <th scope="col">{t.does}</th>
            </tr>
          </thead>
          <tbody>
            {KEY_GROUPS[group].map(({ keys, does }) => (
              <tr key={does}>
                <td>
                  <Keys keys={keys} />
                </td>
                <td>{t.texts[does]}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </>
  );
}
