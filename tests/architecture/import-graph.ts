import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import ts from 'typescript';

export const ROOT = resolve(import.meta.dirname, '../..');
export const SRC = join(ROOT, 'src');

export interface SourceFile {
  /** Relative to src, with forward slashes. */
  readonly path: string;
  readonly text: string;
  /** Paths of our own files it imports (types included), relative to src. */
  readonly imports: readonly string[];
  /** Bare specifiers it imports: packages and Node's own modules. */
  readonly packages: readonly string[];
}

/** Every source file with what it imports, read by the compiler's own scanner. */
export function importGraph(): readonly SourceFile[] {
  return readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .map((name) => {
      const file = join(SRC, name);
      const text = readFileSync(file, 'utf8');
      const specifiers = ts.preProcessFile(text, true, false).importedFiles.map(({ fileName }) => fileName);
      const own = specifiers.filter((one) => one.startsWith('.'));
      return {
        path: name.split(sep).join('/'),
        text,
        imports: own.map((one) =>
          relative(SRC, resolve(dirname(file), one.replace(/\.js$/, '.ts')))
            .split(sep)
            .join('/'),
        ),
        packages: specifiers.filter((one) => !one.startsWith('.')),
      };
    });
}

/** The first import cycle, as the files along it; undefined where there is none. Type imports count. */
export function findCycle(files: readonly Pick<SourceFile, 'path' | 'imports'>[]): readonly string[] | undefined {
  const byPath = new Map(files.map((file) => [file.path, file]));
  const done = new Set<string>();
  const trail: string[] = [];
  const visit = (path: string): readonly string[] | undefined => {
    if (trail.includes(path)) return [...trail.slice(trail.indexOf(path)), path];
    if (done.has(path)) return undefined;
    trail.push(path);
    for (const next of byPath.get(path)?.imports ?? []) {
      const cycle = visit(next);
      if (cycle !== undefined) return cycle;
    }
    trail.pop();
    done.add(path);
    return undefined;
  };
  for (const { path } of files) {
    const cycle = visit(path);
    if (cycle !== undefined) return cycle;
  }
  return undefined;
}
