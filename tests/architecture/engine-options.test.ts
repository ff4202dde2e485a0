import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const root = new URL('../../', import.meta.url);
const { scripts } = JSON.parse(readFileSync(new URL('package.json', root), 'utf8')) as {
  readonly scripts: Readonly<Record<string, string>>;
};
const optionsOf = (command: string): string[] => command.match(/--(?:max|single|no)-[a-z-]+(?:=\d+)?/g) ?? [];

it('the image, npm start and the bench run the engine with the same options', () => {
  const image = readFileSync(new URL('docker/Dockerfile', root), 'utf8');
  const start = optionsOf(scripts['start']!);
  expect(start.length).toBeGreaterThan(0);
  expect(optionsOf(/^CMD .*/m.exec(image)![0])).toEqual(start);
  expect(optionsOf(scripts['bench']!)).toEqual(start);
});
