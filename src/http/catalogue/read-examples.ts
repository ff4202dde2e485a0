import { readdirSync, readFileSync } from 'node:fs';

export interface Example {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  /** A body for POST /v1/verify. */
  readonly request: object;
  readonly expected?: object;
}

/** Beside the package, in the source tree and in the built one alike. */
const FOLDER = new URL('../../../openapi/examples/', import.meta.url);

/**
 * The invented cars, in order of id. Read once, when the service is built.
 * @throws Error where a file is not an example whose id is the file's name
 */
export function readExamples(): readonly Example[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith('.json'))
    .sort()
    .map((file) => {
      const example = JSON.parse(readFileSync(new URL(file, FOLDER), 'utf8')) as Example;
      if (`${example.id}.json` !== file) throw new Error(`the example ${file} has the id ${example.id}`);
      return example;
    });
}
