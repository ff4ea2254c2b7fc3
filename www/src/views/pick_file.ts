import { plain } from './plain';

/** Asks for a file through the browser's own chooser. */
export const pickFile = (options: { accept: string; camera?: boolean }, use: (file: File) => void): void => pickFiles(options, ([file]) => file && use(file));

/** The field that the browser was last asked to fill. */
let asked: HTMLInputElement | null = null;

/** The same for one or several. */
export function pickFiles(options: { accept: string; camera?: boolean; multiple?: boolean }, use: (files: File[]) => void): void {
  // Not every browser says that its chooser was closed without a file.
  asked?.remove();
  const input = document.createElement('input');
  asked = input;
  input.type = 'file';
  input.accept = options.accept;
  if (options.camera) input.setAttribute('capture', 'environment');
  input.multiple = options.multiple ?? false;
  input.hidden = true;
  input.addEventListener('change', () => {
    const files = [...(input.files ?? [])];
    input.remove();
    if (files.length) use(files);
  });
  input.addEventListener('cancel', () => input.remove());
  document.body.append(input);
  input.click();
}

export const PHOTO_TYPES = 'image/jpeg,image/png,image/tiff,image/webp,.tif,.tiff';
/** Browsers know no type for them. */
export const CASE_TYPES = '.tabside,application/zip,application/octet-stream';
export const JSON_TYPES = 'application/json,.json';
export const GUIDE_TYPES = `${JSON_TYPES},text/csv,text/plain,.csv,.tsv,.txt,.cgats`;

/** Gives a text to the user as a file, without any server. */
export const saveText = (name: string, text: string, type: string): void => saveBlob(name, new Blob([text], { type }));

export function saveBlob(name: string, file: Blob): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = writable(name);
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/**
 * Without what no system takes in a name, and what would make it another place, or a device: some systems
 * know those by these words, whatever follows the first dot.
 */
const writable = (text: string): string =>
  plain(text.replace(/[\\/:*?"<>|\0-\x1f\p{Cs}]/gu, '-')).replace(/^[.\s~]+|[.\s]+$/g, '').replace(/^(con|prn|aux|nul|com\d|lpt\d)(?=\s*(\.|$))/i, '$1-');

/** What a file can be called on any system; its ending comes behind. */
export const fileNameOf = (text: string): string => writable([...writable(text)].slice(0, 100).join(''));

/** What belongs to a photo is called after it. */
export const photoBase = (photo: { readonly name: string } | null): string => (photo && fileNameOf(photo.name.replace(/\.[^.]+$/, ''))) || 'tabside';
