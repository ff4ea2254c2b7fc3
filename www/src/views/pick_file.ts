/** Asks for a file through the browser's own chooser. */
export function pickFile(options: { accept: string; camera?: boolean }, use: (file: File) => void): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = options.accept;
  if (options.camera) input.setAttribute('capture', 'environment');
  input.hidden = true;
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    input.remove();
    if (file) use(file);
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
