/** The worker for files of cases: the only place that names their bindings. It is begun when one is wanted. */
import init, { CaseReader, CaseWriter, compare_reading, read_guide, scrub_photo, write_cgats } from '../../pkg/case/tabside_case.js';
import type { CaseCallName, CaseCalls } from './case_protocol';
import { serve, type Told } from './serve';

const bytesOf = async (file: Blob): Promise<Uint8Array> => new Uint8Array(await file.arrayBuffer());

type Async<C> = { [K in keyof C]: C[K] extends (...args: infer A) => infer R ? (told: Told, ...args: A) => Promise<R> : never };

const answers: Async<CaseCalls> = {
  begin: async () => {},
  async write(told, json, photos) {
    const writer = new CaseWriter();
    try {
      told('reading-file');
      for (const { id, file } of photos) writer.add(id, await bytesOf(file));
      told('working');
      const file = writer.write(json) as Uint8Array<ArrayBuffer>;
      return { file, json: writer.written() ?? json };
    } finally {
      writer.free();
    }
  },
  async read(told, file) {
    told('reading-file');
    const bytes = await bytesOf(file);
    told('working');
    const reader = new CaseReader(bytes);
    try {
      const json = reader.case();
      const { photos } = JSON.parse(json) as { photos: { id: string }[] };
      const found = photos.flatMap(({ id }) => {
        const bytes = reader.take_photo(id) as Uint8Array<ArrayBuffer> | undefined;
        return bytes ? [{ id, bytes }] : [];
      });
      return { json, photos: found, readOnly: reader.read_only(), notes: reader.notes() };
    } finally {
      reader.free();
    }
  },
  scrub: async (told, file) => {
    told('reading-file');
    return scrub_photo(await bytesOf(file)) as Uint8Array<ArrayBuffer>;
  },
  compare: async (_, json, photo, now) => compare_reading(json, photo, now),
  cgats: async (_, json) => write_cgats(json),
  guide: async (_, file, name) => read_guide(await bytesOf(file), name),
};

serve<CaseCallName>(init(), (call, args, told) => (answers[call] as (told: Told, ...args: unknown[]) => Promise<unknown>)(told, ...args));
