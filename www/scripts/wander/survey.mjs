// What can be seen and used on the page just now. Runs in the page; the log names a target by its path.

/** Targets in the order of the document, and what is open over the page. */
export function survey() {
  const USABLE = 'button, a[href^="#"], input, select, textarea, summary, [tabindex="0"], .handle, canvas.photo, .outline';
  const path = (element) => {
    const steps = [];
    for (let at = element; at && at !== document.body; at = at.parentElement) {
      if (at.id && !/\d{3}|:/.test(at.id)) {
        steps.unshift(`#${CSS.escape(at.id)}`);
        break;
      }
      const same = [...at.parentElement.children].filter((one) => one.localName === at.localName);
      steps.unshift(`${at.localName}${same.length > 1 ? `:nth-of-type(${same.indexOf(at) + 1})` : ''}`);
    }
    return steps.join(' > ');
  };
  const kindOf = (element) => {
    const { localName, type } = element;
    if (localName === 'input') return type === 'checkbox' || type === 'radio' ? 'check' : type === 'range' ? 'range' : type === 'file' ? 'file' : 'text';
    if (localName === 'textarea') return 'text';
    if (localName === 'select') return 'select';
    return element.matches('.handle, canvas.photo, .outline, [role=separator]') ? 'drag' : 'button';
  };
  const open = [...document.querySelectorAll('dialog[open]')].at(-1);
  const targets = [...(open ?? document).querySelectorAll(USABLE)].flatMap((element) => {
    const box = element.getBoundingClientRect();
    if (box.width < 1 || box.height < 1 || element.disabled || element.closest('[inert], [hidden]') || getComputedStyle(element).visibility === 'hidden') return [];
    // To erase everything is no part of a walk; a file is chosen by what opens the chooser.
    if (element.closest('.erase-ask')?.querySelector('button') === element) return [];
    const kind = kindOf(element);
    if (kind === 'file') return [];
    const label = (element.getAttribute('aria-label') ?? element.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 60);
    return [{ path: path(element), kind, label }];
  });
  return {
    targets,
    dialog: open ? open.className : null,
    patient: document.querySelector('.patient-back') !== null,
    empty: document.querySelector('canvas.photo') === null,
    start: document.querySelector('.start .choices') !== null,
    erased: document.querySelector('.erased') !== null,
    blank: document.getElementById('page').childElementCount === 0,
  };
}

/** Brings a target into view; its middle when a pointer there would meet it, else `null`. */
export function place(path) {
  const element = document.querySelector(path);
  if (!element) return null;
  const seen = () => {
    const { left, top, width, height } = element.getBoundingClientRect();
    const at = [Math.round(left + width / 2), Math.round(top + height / 2)];
    const hit = document.elementFromPoint(...at);
    return hit && (element.contains(hit) || hit.contains(element) || hit.closest('label')?.contains(element)) ? at : null;
  };
  const at = seen();
  if (at) return at;
  element.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
  return seen();
}
