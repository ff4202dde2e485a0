import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { promisify } from 'node:util';
import { createContext, runInContext } from 'node:vm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Service, startService } from './service.js';
import { STAND_IN_CURL } from './stand-in-curl.js';

const FOLDER = new URL('../../openapi/recipes/', import.meta.url);
const BASE = 'https://risefall.example';
const recipe = (name: string): string => readFileSync(new URL(name, FOLDER), 'utf8');

interface Block {
  readonly name: string;
  readonly kind: string;
  readonly code: string;
  /** The block of kind `answer` that follows. */
  readonly answer?: string;
}

/** The fenced blocks of a recipe, answers with what they answer. */
function blocksOf(file: string): Block[] {
  const found = [...recipe(file).matchAll(/^```(\w+)\n([^]*?)^```$/gm)];
  const all = found.map(([, kind = '', code = ''], index) => ({ name: `${file}, block ${index + 1}`, kind, code }));
  return all.flatMap((block, index) => {
    const next = all[index + 1];
    if (block.kind === 'answer') return [];
    return [next?.kind === 'answer' ? { ...block, answer: next.code.trimEnd() } : block];
  });
}

/** The rows of the table with that heading, as pairs. */
function pairsOf(text: string, heading: string): [string, string][] {
  const lines = text.split('\n');
  const rows = lines.slice(lines.indexOf(heading) + 2);
  const end = rows.findIndex((line) => !line.startsWith('|'));
  return rows.slice(0, end).map((line) => {
    const [, first = '', second = ''] = line.split('|').map((cell) => cell.trim());
    return [first, second];
  });
}

const example = JSON.parse(
  readFileSync(new URL('../../openapi/examples/sound-rear-pack.json', import.meta.url), 'utf8'),
) as { request: { circuit: object; ruleset: string } };

let service: Service;
let address: string;
let folder: string;
beforeAll(async () => {
  service = await startService();
  await service.app.listen({ port: 0, host: '127.0.0.1' });
  address = `http://127.0.0.1:${(service.app.server.address() as AddressInfo).port}`;
  folder = mkdtempSync(join(tmpdir(), 'recipes-'));
  writeFileSync(join(folder, 'request.json'), JSON.stringify(example.request));
  writeFileSync(join(folder, 'curl'), STAND_IN_CURL, { mode: 0o755 });
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await service.app.close();
});

describe('the recipes', () => {
  const files = readdirSync(FOLDER).filter((file) => file !== 'README.md');

  it('are all listed', () => {
    expect([...recipe('README.md').matchAll(/^\| \[([^\]]+)\]/gm)].map(([, name]) => name).sort()).toEqual(files);
  });

  it.each(files)('%s has only blocks that a test runs', (file) => {
    const known = ['formula', 'powerquery', 'js', 'sh'];
    const blocks = blocksOf(file);
    expect(blocks.length).toBeGreaterThan(0);
    for (const { kind } of blocks) expect(known).toContain(kind);
  });
});

describe('a formula', () => {
  const FILE = 'spreadsheet-cells.md';
  const cells = new Map(pairsOf(recipe(FILE), '| cell | holds |'));
  const cell = (name: string): string => {
    const held = cells.get(name);
    if (held === undefined) throw new Error(`the sheet has no cell ${name}`);
    return held;
  };

  /** An expression of texts, cells, `&`, ENCODEURL and TEXTJOIN, as a spreadsheet evaluates it. */
  function evaluate(expression: string): string {
    const join = /^TEXTJOIN\(",",TRUE,([A-Z])(\d+):\1(\d+)\)/;
    let rest = expression;
    let result = '';
    while (rest !== '') {
      const literal = /^"((?:[^"]|"")*)"/.exec(rest);
      const encoded = /^ENCODEURL\(([A-Z]\d+|TEXTJOIN\([^)]*\))\)/.exec(rest);
      const list = join.exec(rest);
      const name = /^[A-Z]\d+/.exec(rest);
      const found = literal ?? encoded ?? list ?? name;
      if (found === null) throw new Error(`not understood: ${rest}`);
      if (literal !== null) result += (literal[1] ?? '').replaceAll('""', '"');
      else if (encoded !== null) result += encodeURIComponent(evaluate(encoded[1] ?? ''));
      else if (list !== null) {
        const [, column = '', from = '', to = ''] = list;
        const rows = Array.from({ length: Number(to) - Number(from) + 1 }, (_, index) => Number(from) + index);
        result += rows.map((row) => cell(`${column}${row}`)).join(',');
      } else result += cell(found[0]);
      rest = rest.slice(found[0].length).replace(/^&/, '');
    }
    return result;
  }

  it.each(blocksOf(FILE))('$name', async ({ code, answer }) => {
    const formula = code.trim();
    const [, expression = ''] = /(?:WEBSERVICE|IMPORTDATA)\((.*?)\)(?:,"[.,]"\)|,,CHAR\(10\)\)|)$/.exec(formula) ?? [];
    const url = evaluate(expression);
    expect(url.startsWith(`${BASE}/v1/`)).toBe(true);
    expect(url.length).toBeLessThan(2048);
    const { status, text: body } = await service.call(url.slice(BASE.length));
    expect(status).toBe(200);
    const [, mark] = /^=NUMBERVALUE\(.*,"([.,])"\)$/.exec(formula) ?? [];
    if (mark === undefined) expect(body.replaceAll('\r\n', '\n').trimEnd()).toBe(answer);
    else {
      expect(body).toMatch(mark === ',' ? /^\d+,\d+$/ : /^\d+\.\d+$/);
      expect(body.replace(',', '.')).toBe(answer);
    }
  });
});

describe('a query of a sheet', () => {
  it.each(blocksOf('spreadsheet-queries.md'))('$name', async ({ code }) => {
    expect(code).toContain(`Base = "${BASE}"`);
    const [, path = ''] = /RelativePath = "([^"]+)"/.exec(code) ?? [];
    const [, pairs = ''] = /Query = \[(.*)\]/.exec(code) ?? [];
    const query = [...pairs.matchAll(/(\w+) = "([^"]*)"/g)].map(([, name = '', value = '']): [string, string] => [
      name,
      value,
    ]);
    const [, ruleset] = /Json\.FromValue\(\[circuit = Circuit, ruleset = "([^"]+)"\]\)/.exec(code) ?? [];
    const url = `/${path}${query.length > 0 ? `?${new URLSearchParams(query).toString()}` : ''}`;
    const { circuit } = example.request;
    const answer = ruleset === undefined ? await service.call(url) : await service.post(url, { circuit, ruleset });
    expect(answer.status).toBe(200);
    const [, list = '', columns = ''] = /Table\.FromRecords\(Answer\[(\w+)\], \{([^}]+)\}/.exec(code) ?? [];
    const records = answer.json[list] as Record<string, unknown>[];
    expect(records.length).toBeGreaterThan(0);
    for (const [, column = ''] of columns.matchAll(/"([^"]+)"/g)) {
      expect(records.filter((record) => column in record).length, column).toBeGreaterThan(0);
    }
  });
});

describe('the bot', () => {
  const FILE = 'chat-bot.md';
  interface Bot {
    reply: (message: string) => Promise<string | undefined>;
    replyToCircuit: (circuit: unknown, ruleset: string) => Promise<string>;
  }
  const bot = (): Bot => {
    /** The service in place of the network, every answer held against its description. */
    const fetched = async (url: string, options: Record<string, unknown> = {}) => {
      expect(url.startsWith(BASE)).toBe(true);
      const { body, ...rest } = options;
      const answer = await service.call({ url: url.slice(BASE.length), payload: body as string, ...rest });
      return { ok: answer.status < 300, json: () => Promise.resolve(answer.json) };
    };
    const context = createContext({ fetch: fetched, URLSearchParams, encodeURIComponent });
    for (const { code } of blocksOf(FILE)) runInContext(code, context);
    return context as unknown as Bot;
  };

  it.each(pairsOf(recipe(FILE), '| message | answer |'))('answers %s', async (message, answer) => {
    expect(await bot().reply(message)).toBe(answer);
  });

  it('leaves other messages alone', async () => {
    expect(await bot().reply('good morning')).toBeUndefined();
  });

  it('says what a circuit violates, or what is wrong with it', async () => {
    const broken = JSON.parse(
      readFileSync(new URL('../../openapi/examples/discharge-fused.json', import.meta.url), 'utf8'),
    ) as typeof example;
    const lines = (await bot().replyToCircuit(broken.request.circuit, broken.request.ruleset)).split('\n');
    expect(lines[0]).toBe('violation-found');
    expect(lines.slice(1)).toEqual([expect.stringMatching(/^- .*fuse.*\.$/)]);
    expect(await bot().replyToCircuit({}, 'student-ev-2026')).toMatch(/missing/);
  });
});

describe('the shell', () => {
  const run = promisify(execFile);
  const blocks = ['shell.md', 'document-build.md'].flatMap(blocksOf);

  it.each(blocks)('$name', async ({ code, answer }) => {
    const path = [folder, process.env['PATH'] ?? ''].join(delimiter);
    const { stdout } = await run('sh', ['-c', code], { cwd: folder, env: { PATH: path, BASE: address } });
    if (answer !== undefined) expect(stdout.trimEnd()).toBe(answer);
  });
});
