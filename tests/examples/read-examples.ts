import { readdirSync, readFileSync } from 'node:fs';

/** Example elements as they stand in the file: wire form, nothing resolved. */
export interface WireElement {
  readonly id: string;
  readonly kind: string;
  readonly nodes: readonly [string, string];
  readonly zone: 'container' | 'vehicle';
  readonly [field: string]: unknown;
}

export interface Example {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly request: {
    readonly circuit: {
      readonly title: string;
      readonly elements: readonly WireElement[];
      readonly [field: string]: unknown;
    };
    readonly ruleset: string;
    readonly event?: { readonly meterResistance?: unknown };
  };
  readonly expected: {
    readonly verdict: 'violation-found' | 'undetermined' | 'no-violation-found';
    readonly violated: readonly string[];
    readonly undetermined: readonly string[];
  };
}

const folder = new URL('../../openapi/examples/', import.meta.url);

/** Every example with its file's name, in order of name. */
export const examples: ReadonlyArray<{ readonly file: string; readonly example: Example }> = readdirSync(folder)
  .filter((file) => file.endsWith('.json'))
  .sort()
  .map((file) => ({ file, example: JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Example }));
