export interface Walked {
  seed: number;
  steps: number;
  minutes: number;
  problems: { step: number; kind: string; text: string }[];
}

/** Without `warmMinutes` below `minutes`, memory is not measured. */
export function walk(options: { url: string; seed: number; minutes?: number; steps?: number; warmMinutes?: number; log?: (action: object) => void; told?: (text: string) => void; quick?: boolean }): Promise<Walked>;
