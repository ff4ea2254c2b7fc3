/** What crosses between the page and the worker for files of cases: text in the forms of the published schemas, photos as bytes. */

export interface PhotoFile {
  /** Its id in the case. */
  readonly id: string;
  readonly file: Blob;
}

export interface CaseCalls {
  /** Nothing but that it is there. */
  begin(): void;
  /** The file of a case (JSON text), and the case as it stands in it. */
  write(json: string, photos: PhotoFile[]): { file: Uint8Array<ArrayBuffer>; json: string };
  /** The case of a file, its photos, and notes as JSON text. */
  read(file: Blob): { json: string; photos: { id: string; bytes: Uint8Array<ArrayBuffer> }[]; readOnly: boolean; notes: string };
  /** The photo's file, freed of position, serial numbers and names. */
  scrub(file: Blob): Uint8Array<ArrayBuffer>;
  /** The kept numbers of a photo against a report (JSON text) that was derived again, or against none. */
  compare(json: string, photo: string, now: string | undefined): string;
  /** A reading (JSON text) as CGATS. */
  cgats(json: string): string;
  /** A shade guide from a file, JSON, CSV or CGATS, and remarks, as JSON text. */
  guide(file: Blob, name: string): string;
}

export type CaseCallName = keyof CaseCalls;
