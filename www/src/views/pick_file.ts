/** Asks for a file through the browser's own chooser. */
export const pickFile = (options: { accept: string; camera?: boolean }, use: (file: File) => void): void => pickFiles(options, ([file]) => file && use(file));

/** The same for one or several. */
export function pickFiles(options: { accept: string; camera?: boolean; multiple?: boolean }, use: (files: File[]) => void): void {
  const input = document.createElement('input');
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
export const JSON_TYPES = 'application/json,.json';

/** Gives a text to the user as a file, without any server. */
export function saveText(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
