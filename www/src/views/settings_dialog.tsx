/** How the page looks and speaks on this device. */
import { LANGUAGES, useLanguage } from '../state/language';
import { remember, settings, surround, SURROUNDS } from '../state/settings';
import { language, words } from '../words';
import { Switch } from './switch';

export function SettingsDialog() {
  const t = words.settings;
  return (
    <>
      <fieldset>
        <legend>{t.surround}</legend>
        {SURROUNDS.map((name) => (
          <label class="radio" key={name}>
            <input type="radio" name="surround" checked={surround.value === name} onChange={() => remember({ surround: name })} />
            {t.surrounds.texts[name]}
          </label>
        ))}
        <p class="hint">{t.surroundHint}</p>
      </fieldset>
      <fieldset>
        <legend>{t.language}</legend>
        {LANGUAGES.map(({ tag, name }) => (
          <label class="radio" key={tag} lang={tag}>
            <input type="radio" name="language" checked={language.value.tag === tag} onChange={() => void useLanguage(tag)} />
            {name}
          </label>
        ))}
        <p class="hint">{t.languageHint}</p>
      </fieldset>
      <fieldset>
        <legend>{t.keys}</legend>
        <Switch on={settings.value.singleKeys !== false} text={t.singleKeys} turn={(on) => remember({ singleKeys: on ? undefined : false })} />
        <p class="hint">{t.singleKeysHint}</p>
      </fieldset>
      <p class="hint">{t.kept}</p>
    </>
  );
}
