import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { openTable } from '../../src/http/bulk/open-table.js';
import { exampleRows } from '../../src/verify/rows/example-rows.js';
import { type Answer, type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService({ work: { threads: 0 } });
});
afterAll(() => service.app.close());

const URL = '/v1/verify/batch';
const small = requestExamples['verifyCircuit']?.['smallCar']?.value as { circuit: object; ruleset: string };
const [row] = exampleRows;

const send = (
  payload: string | Buffer,
  type: string,
  query = '',
  headers: Record<string, string> = {},
): Promise<Answer> =>
  service.call({ method: 'POST', url: `${URL}${query}`, payload, headers: { 'content-type': type, ...headers } });
const lines = (answer: Answer): any[] =>
  answer.text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as unknown);
const ndjson = async (items: readonly unknown[], query = '') =>
  lines(
    await send(
      items.map((item) => (typeof item === 'string' ? item : JSON.stringify(item))).join('\n'),
      'application/x-ndjson',
      query,
    ),
  );
const RULESET = '?ruleset=student-ev-2020';

const namesIn = (rows: readonly object[]): string[] => [...new Set(rows.flatMap((one) => Object.keys(one)))];

/** A table of rows. */
function table(rows: readonly Readonly<Record<string, string>>[], separator = ',', end = '\r\n'): string {
  const names = namesIn(rows);
  const quoted = (cell: string) => (/[",;\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return [names, ...rows.map((one) => names.map((name) => one[name] ?? ''))]
    .map((cells) => cells.map(quoted).join(separator) + end)
    .join('');
}
const resultOf = (answer: Answer, column: string, separator = ','): string[] => {
  const [head = '', ...rest] = answer.text
    .trimEnd()
    .replace(/^\uFEFF/, '')
    .split('\r\n');
  const at = head.split(separator).indexOf(column);
  return rest.map((line) => cellsOf(line, separator)[at] ?? '');
};
const cellsOf = (line: string, separator: string): string[] => {
  const cells = line.match(new RegExp(`("(?:[^"]|"")*"|[^${separator}]*)(${separator}|$)`, 'g')) ?? [];
  return cells.map((cell) =>
    cell
      .replace(new RegExp(`${separator}$`), '')
      .replace(/^"|"$/g, '')
      .replaceAll('""', '"'),
  );
};

describe('lines', () => {
  it('are answered in order, each by itself, blank ones skipped, and counted at the end', async () => {
    const answers = await ndjson([
      { id: 'a', ...small },
      '',
      'not json',
      { id: 7, row, ruleset: 'student-ev-2020' },
      '   ',
      { id: 'c', ruleset: 'student-ev-2020' },
      { row: { ...row, discharge_rest: '' }, ruleset: 'no-such' },
      '[1]',
    ]);
    expect(answers.map(({ index, id, line, status }) => [index, id, line, status])).toEqual([
      [0, 'a', 1, 200],
      [1, null, 3, 400],
      [2, 7, 4, 200],
      [3, 'c', 6, 422],
      [4, 'Aldermoor 7', 7, 422],
      [5, null, 8, 422],
      [undefined, undefined, undefined, undefined],
    ]);
    expect(answers[2].verdict).toBe('no-violation-found');
    expect(answers[1].problem).toMatchObject({ code: 'malformed-json', status: 400 });
    expect(answers[3].problem.errors).toMatchObject([{ code: 'row-or-circuit' }]);
    expect(answers[4].problem.errors.map((one: { pointer: string }) => one.pointer)).toEqual([
      '#/row/discharge_rest',
      '#/ruleset',
    ]);
    expect(answers[6]).toEqual({
      summary: { count: 6, violationFound: 0, undetermined: 1, noViolationFound: 1, errors: 4 },
    });
  });

  it('give the same as a call of its own', async () => {
    const alone = await service.post('/v1/verify', small);
    const [full] = await ndjson([small], '?detail=full');
    expect(full).toMatchObject(alone.json);
    const [brief] = await ndjson([small]);
    const violated = (status: string) =>
      alone.json.findings
        .filter((one: { status: string; weight: string }) => one.status === status && one.weight === 'rule')
        .map(({ rule }: { rule: string }) => rule);
    expect(brief).toMatchObject({
      verdict: alone.json.verdict,
      violated: violated('violated'),
      undetermined: violated('undetermined'),
    });
  });

  it('point at the columns of a row in the whole report too', async () => {
    const [full] = await ndjson(
      [{ row: { ...row, precharge_timeout: '' }, ruleset: 'student-ev-2020' }],
      '?detail=full',
    );
    const missing = full.findings.flatMap((finding: { missing?: string[] }) => finding.missing ?? []);
    expect(missing).toContain('#/row/precharge_timeout');
    expect(full.findings.map((one: object) => JSON.stringify(one)).join()).not.toContain('#/circuit');
  });

  it('return a row’s own columns', async () => {
    const own = { row: { ...row, team: 'Invented', discharge_volatge_rating: '1 V' }, ruleset: 'student-ev-2020' };
    delete (own.row as Record<string, string>)['discharge_voltage_rating'];
    const [answer] = await ndjson([own]);
    expect(answer.extra).toEqual({ team: 'Invented', discharge_volatge_rating: '1 V' });
    expect(answer.notes).toHaveLength(1);
  });

  it('take what the query says where they say nothing', async () => {
    const bare = { ...small, ruleset: undefined };
    const [without] = await ndjson([bare]);
    expect(without.problem.errors).toMatchObject([{ pointer: '#/ruleset', code: 'missing-field' }]);
    // 2 kΩ of an organiser's meter beside the 1 kΩ resistor: two thirds of the voltage, by the divider.
    const query = '?ruleset=collegiate-ev-2024&meterResistance=2k';
    const [with2k, own] = await ndjson([bare, { ...small, event: {} }], `${query}&detail=full`);
    expect(with2k.provenance).toMatchObject({
      ruleset: { id: 'collegiate-ev-2024' },
      event: { meterResistance: 2000 },
    });
    expect(with2k.precharge.steadyRatio.nominal).toBeLessThan(0.67);
    expect(own.provenance.ruleset.id).toBe('student-ev-2020');
    expect(own.provenance.event.meterResistance).toBeUndefined();
  });

  it('that are too long are refused in their place', async () => {
    const answers = await ndjson([small, `"${'x'.repeat(1_048_576)}"`, small]);
    expect(answers.map(({ status }) => status)).toEqual([200, 413, 200, undefined]);
    expect(answers[1].problem.code).toBe('line-too-long');
    expect(answers[1].problem.detail).toContain('1048576 bytes');
  });

  it('with ids that are none are faults', async () => {
    const answers = await ndjson([
      { id: 1.5, ...small },
      { id: null, ...small },
      { id: 'x'.repeat(201), ...small },
    ]);
    for (const { status, id, problem } of answers.slice(0, 3)) {
      expect([status, id, problem.errors[0].pointer]).toEqual([422, null, '#/id']);
      expect(problem.errors[0].detail).toContain('at most 200 characters');
    }
  });

  it('say on which line of the batch their JSON breaks off', async () => {
    const [, bad] = await ndjson([{ ...small, id: 'one' }, '', '{"circuit": }']);
    expect(bad).toMatchObject({ index: 1, line: 3, problem: { code: 'malformed-json' } });
    expect(bad.problem.detail).toMatch(/^The item .* at line 3, column 13\.$/);
  });

  it('that are none at all are an empty answer', async () => {
    expect(await ndjson(['', ' '])).toEqual([
      { summary: { count: 0, violationFound: 0, undetermined: 0, noViolationFound: 0, errors: 0 } },
    ]);
  });
});

describe('a list', () => {
  it('is answered as a list, with the same items', async () => {
    const answer = await send(JSON.stringify([small, {}, small]), 'application/json');
    expect(answer.headers['content-type']).toMatch(/^application\/json/);
    expect(answer.json.results.map(({ status }: { status: number }) => status)).toEqual([200, 422, 200]);
    expect(answer.json.summary).toMatchObject({ count: 3, errors: 1 });
    const asLines = await ndjson([small]);
    const { index, ...rest } = answer.json.results[2];
    expect(index).toBe(2);
    expect(asLines[0]).toMatchObject(rest);
  });

  it.each([
    ['{"circuit":{}}', 422, 'invalid-request'],
    ['7', 422, 'invalid-request'],
    ['', 400, 'empty-body'],
    ['   ', 400, 'empty-body'],
  ])('%j is none', async (payload, status, code) => {
    const answer = await send(payload, 'application/json');
    expect([answer.status, answer.json.code]).toEqual([status, code]);
  });

  it('says where in an item its JSON breaks off, since nobody counted the lines before it', async () => {
    const answer = await send('[\n {},\n\n {"id": 1,\n  "circuit": }\n]', 'application/json');
    expect(answer.json.results[1].problem.detail).toMatch(/at line 2, column 14 of the item\.$/);
  });

  it('that breaks off says so in its place', async () => {
    const answer = await send(`[${JSON.stringify(small)},{"circuit"`, 'application/json');
    expect(answer.json.results.map(({ status }: { status: number }) => status)).toEqual([200, 400]);
    expect(answer.json.results[1].problem.code).toBe('malformed-json');
  });

  it('of nothing is an answer of nothing', async () => {
    const answer = await send('[]', 'application/json');
    expect(answer.json).toMatchObject({ results: [], summary: { count: 0 } });
  });
});

describe('a table', () => {
  const rows = exampleRows.map((one, index) => ({ ...one, team: `Team ${index}` }));

  it('comes back with its own columns, in their order, and the results behind them', async () => {
    const answer = await send(table(rows), 'text/csv', RULESET);
    expect(answer.headers['content-type']).toBe('text/csv; charset=utf-8; header=present');
    const [head] = answer.text.split('\r\n');
    expect(head?.startsWith(`${namesIn(rows).join(',')},result_status,result_verdict`)).toBe(true);
    expect(resultOf(answer, 'result_verdict')).toEqual(rows.map(() => 'no-violation-found'));
    expect(resultOf(answer, 'team')).toEqual(rows.map(({ team }) => team));
  });

  it.each<[string, string, string]>([
    ['semicolons', table(rows, ';'), ';'],
    ['a byte order mark', `\uFEFF${table(rows)}`, ','],
    ['a stated separator', `sep=;\r\n${table(rows, ';')}`, ';'],
    ['line feeds', table(rows, ',', '\n'), ','],
    ['empty lines at the end', `${table(rows)}\r\n,,,,\r\n`, ','],
    ['an empty column at the end', table(rows).replaceAll('\r\n', ',\r\n'), ','],
    ['hard spaces', table(rows).replaceAll(' ', '\u00a0'), ','],
    [
      'another order and case',
      table(
        rows.map((one) =>
          Object.fromEntries(
            Object.entries(one)
              .reverse()
              .map(([name, cell]) => [name === 'car' ? 'Car' : name.toUpperCase().replaceAll('_', ' '), cell]),
          ),
        ),
      ),
      ',',
    ],
  ])('with %s reads the same', async (_name, text, separator) => {
    const answer = await send(text, 'text/csv', RULESET);
    expect(resultOf(answer, 'result_verdict', separator)).toEqual(rows.map(() => 'no-violation-found'));
    expect(answer.text.startsWith('\uFEFF')).toBe(text.startsWith('\uFEFF'));
  });

  it('with decimal commas is read and answered so, where that is declared', async () => {
    const comma = rows.map((one) =>
      Object.fromEntries(Object.entries(one).map(([name, cell]) => [name, cell.replace(/(\d)\.(\d)/, '$1,$2')])),
    );
    const text = table(comma, ';');
    expect(text).toContain('3,3 kΩ');
    const answer = await send(text, 'text/csv', `${RULESET}&decimal=comma&detail=full`);
    expect(resultOf(answer, 'result_verdict', ';')).toEqual(rows.map(() => 'no-violation-found'));
    expect(resultOf(answer, 'result_precharge_ratio_min', ';')[0]).toMatch(/^0,97\d+$/);
    const undeclared = await send(text, 'text/csv', RULESET);
    expect(resultOf(undeclared, 'result_message', ';')[0]).toContain('declare `decimal=comma`');
  });

  it('in another charset is read where that is declared, and refused cell by cell where it is not', async () => {
    // Windows-1252 has µ and ° but no Ω.
    const text = table(rows).replaceAll('Ω', 'ohm');
    const bytes = Buffer.from(text, 'latin1');
    const declared = await send(bytes, 'text/csv; charset=windows-1252', RULESET);
    expect(resultOf(declared, 'result_verdict')).toEqual(rows.map(() => 'no-violation-found'));
    const not = await send(bytes, 'text/csv', RULESET);
    expect(resultOf(not, 'result_status')).toEqual(rows.map(() => '422'));
    expect(resultOf(not, 'result_message')[0]).toContain('UTF-8');
    const unknown = await send(bytes, 'text/csv; charset=klingon', RULESET);
    expect([unknown.status, unknown.json.code]).toEqual([415, 'unsupported-media-type']);
  });

  it.each([
    ['little-endian', (bytes: Buffer) => bytes],
    ['big-endian', (bytes: Buffer) => bytes.swap16()],
  ])('of “Unicode text”, UTF-16 %s between tabs, is known by its mark', async (_order, inOrder) => {
    const bytes = inOrder(Buffer.from(`\uFEFF${table(rows, '\t')}`, 'utf16le'));
    const answer = await send(bytes, 'text/csv', RULESET);
    expect(resultOf(answer, 'result_verdict', '\t')).toEqual(rows.map(() => 'no-violation-found'));
    expect(answer.text.startsWith('\uFEFF')).toBe(true);
  });

  it('is known by its mark in whatever pieces it comes', async () => {
    async function* pieces(bytes: Uint8Array) {
      for (const byte of bytes) yield Uint8Array.of(byte);
    }
    const marked = await openTable(pieces(Buffer.from('\uFEFFcar;x\r\nµ;1', 'utf16le')), 'utf-8');
    expect(marked.table).toEqual({ headings: ['car', 'x'], separator: ';', marked: true });
    const found = [];
    for await (const some of marked.items) found.push(...some);
    expect(found).toEqual([{ index: 0, line: 2, content: { form: 'cells', cells: ['µ', '1'] } }]);
    await expect(openTable(pieces(Buffer.from('x')), 'utf-8')).rejects.toThrow('none of the columns');
  });

  it('has no cell that a spreadsheet takes for a formula', async () => {
    const evil = { ...rows[0]!, car: '=HYPERLINK("http://x","y")', team: '@SUM(A1)', score: '-5', note: '+1 reserve' };
    const answer = await send(table([evil]), 'text/csv', RULESET);
    expect(resultOf(answer, 'car')).toEqual([`'=HYPERLINK("http://x","y")`]);
    expect(resultOf(answer, 'team')).toEqual(["'@SUM(A1)"]);
    expect(resultOf(answer, 'score')).toEqual(['-5']);
    expect(resultOf(answer, 'note')).toEqual(["'+1 reserve"]);
    const asJson = await send(table([evil]), 'text/csv', `${RULESET}&format=ndjson`);
    expect(lines(asJson)[0].extra).toEqual({ team: '@SUM(A1)', score: '-5', note: '+1 reserve' });
  });

  it('with a bad row says so in its place', async () => {
    const wrong = { discharge_rest: 'sometimes', meter_resistance: '47 kF', discharge_fused: '' };
    const bad = [rows[0]!, { ...rows[1]!, ...wrong }, rows[2]!];
    const answer = await send(table(bad), 'text/csv', RULESET);
    expect(resultOf(answer, 'result_status')).toEqual(['200', '422', '200']);
    const message = resultOf(answer, 'result_message')[1];
    expect(message).toContain('discharge_rest: ');
    expect(message).toContain('meter_resistance: ');
    // A sentence that names its column needs no name ahead.
    expect(message).toContain('`discharge_fused` is not stated');
    expect(message).not.toContain('discharge_fused: ');
    // What is accepted is there as in JSON, where the sentence does not hold it.
    const asJson = await send(table(bad), 'text/csv', `${RULESET}&format=ndjson`);
    const errors = lines(asJson)[1].problem.errors as { pointer: string; accepted: string }[];
    expect(errors.map(({ pointer }) => pointer).sort()).toEqual(
      Object.keys(wrong)
        .map((name) => `#/row/${name}`)
        .sort(),
    );
    for (const { accepted } of errors) expect(message!.split(accepted)).toHaveLength(2);
  });

  it('with a row that is too long says how long one may be', async () => {
    const answer = await send(table([rows[0]!, { ...rows[1]!, car: 'x'.repeat(70_000) }]), 'text/csv', RULESET);
    expect(resultOf(answer, 'result_status')).toEqual(['200', '413']);
    expect(resultOf(answer, 'result_message')[1]).toMatch(/65536 characters .* 50 lines/);
  });

  it('with a quote that is never closed loses that row alone', async () => {
    const [head, first, ...others] = table(rows).trimEnd().split('\r\n');
    const text = [head, first, `"${first}`, ...others].join('\r\n');
    const answer = await send(text, 'text/csv', `${RULESET}&format=ndjson`);
    expect(lines(answer).map(({ index, line, status }) => [index, line, status])).toEqual([
      [0, 2, 200],
      [1, 3, 400],
      [2, 4, 200],
      [3, 5, 200],
      [4, 6, 200],
      [undefined, undefined, undefined],
    ]);
  });

  it.each([
    ['one later', 'team', 'a remark'],
    ['its own', 'a remark', 'a remark'],
    ['one earlier', 'a remark', 'team'],
  ])('with a quote that would close in the next row, in %s column, loses that row alone', async (_w, opens, closes) => {
    const cars = exampleRows.map(({ car }) => car);
    const own = rows.map((one) => ({ ...one, team: 'plain', 'a remark': 'plain' }));
    const quotedIn = (one: Record<string, string>, name: string) => ({ ...one, [name]: 'first, second' });
    const text = table([own[0]!, { ...own[1]!, [opens]: '@' }, quotedIn(own[2]!, closes), own[0]!]);
    const answer = await send(text.replace(',@', ',"open'), 'text/csv', `${RULESET}&format=ndjson`);
    expect(lines(answer).map(({ line, status, id }) => [line, status, id])).toEqual([
      [2, 200, cars[0]],
      [3, 400, cars[1]],
      [4, 200, cars[2]],
      [5, 200, cars[0]],
      [undefined, undefined, undefined],
    ]);
  });

  it.each([
    ['plain', 'is a separator in a cell that is not quoted?'],
    ['"two\r\nlines"', 'lines 3 and 4 were read as one row: is a quote not closed, or a separator'],
    ['"more\r\nthan\r\ntwo"', 'lines 3 to 5 were read as one row: is a quote not closed, or a separator'],
  ])('with more cells than headings says that alone of the row: %j', async (remark, cause) => {
    const [head = '', ...good] = table(rows).trimEnd().split('\r\n');
    const surplus = good[0]!.split(',').toSpliced(4, 0, remark, 'many').join(',');
    const text = [head, good[1], surplus, good[2]].join('\r\n');
    const [, bad, next] = lines(await send(text, 'text/csv', `${RULESET}&format=ndjson`));
    const { length } = head.split(',');
    expect(bad.problem.errors).toEqual([
      { pointer: '#/row', code: 'wrong-length', detail: expect.stringContaining(cause) as string },
    ]);
    expect(bad.problem.errors[0].detail).toContain(`has ${length + 2} cells under ${length} headings`);
    expect([bad.id, next.status]).toEqual([exampleRows[0]!['car'], 200]);
    const page = await send(text, 'text/csv', `${RULESET}&detail=summary&format=markdown`);
    expect(page.text).toContain('faults in the whole row |');
  });

  it('has as much of a line that cannot be read as can', async () => {
    const columns = namesIn(rows);
    const cells = columns.map((name) => `${name} 1`);
    const open = [...cells.slice(0, 3), `"${cells[3]}`, ...cells.slice(4)].join(',');
    const answer = await send([columns.join(','), open, ''].join('\r\n'), 'text/csv', RULESET);
    expect(resultOf(answer, 'result_status')).toEqual(['400']);
    const back = columns.map((name) => resultOf(answer, name)[0]);
    expect(back.slice(0, 3)).toEqual(cells.slice(0, 3));
    // The text behind the quote, its first characters.
    expect(cells.slice(3).join(',').startsWith(back[3]!.replace(/…$/, ''))).toBe(true);
    expect(back[3]!.length).toBeGreaterThan(10);
    expect(back.slice(4).every((cell) => cell === '')).toBe(true);
  });

  it('names the car of such a line by its id where that was read', async () => {
    const cells = ['Sedge 7', '"open'];
    const named = await send(`car,arrangement\r\n${cells.join(',')}\r\n`, 'text/csv', `${RULESET}&format=ndjson`);
    const unnamed = await send(`arrangement,car\r\n${cells.join(',')}\r\n`, 'text/csv', `${RULESET}&format=ndjson`);
    expect([named, unnamed].map((answer) => lines(answer)[0]?.id)).toEqual(['Sedge 7', null]);
  });

  it('that is sent back keeps one set of results', async () => {
    const once = await send(table(rows), 'text/csv', RULESET);
    const twice = await send(once.text, 'text/csv', RULESET);
    expect(twice.text).toBe(once.text);
  });

  it('needs its ruleset in the query', async () => {
    const answer = await send(table(rows), 'text/csv');
    expect(resultOf(answer, 'result_status')).toEqual(rows.map(() => '422'));
    const [first, ...others] = resultOf(answer, 'result_message');
    expect(first).toMatch(
      /^`ruleset` is missing for the whole table: name it once, in the query \(`\?ruleset=…`\), as one of .*student-ev-2026\./,
    );
    expect(others.length).toBeGreaterThan(0);
    for (const message of others) expect(message).toBe('`ruleset` is missing for the whole table.');
  });

  it('says once what many cells of a row lack', async () => {
    const answer = await send('car,meter_place\r\nA,none\r\n', 'text/csv', RULESET);
    const [message = ''] = resultOf(answer, 'result_message');
    expect(message.split('the circuit cannot be drawn')).toHaveLength(2);
    expect(message).toMatch(
      /^`arrangement` is not stated: .* Accepted: one of .* The same goes for `discharge_fused`, `precharge_fused` \(accepted: `yes` or `no`\); .*\)\.$/,
    );
  });

  it('that is empty says what one holds', async () => {
    const { detail } = (await send('', 'text/csv', RULESET)).json;
    expect(detail).toMatch(/^The table is empty: its first line names the columns, which GET \/v1\/rows lists, /);
  });

  it.each([
    ['', 400, 'empty-body'],
    ['a,b\n1,2\n', 400, 'malformed-csv'],
    [`car,Car\nx,y\n`, 422, 'invalid-request'],
  ])('%j is none', async (text, status, code) => {
    const answer = await send(text, 'text/csv', RULESET);
    expect([answer.status, answer.json.code]).toEqual([status, code]);
  });

  it('can also be the answer to lines', async () => {
    const payload = [{ id: 'a', ...small }, {}].map((one) => JSON.stringify(one)).join('\n');
    const answer = await send(payload, 'application/x-ndjson', '?format=csv');
    expect(resultOf(answer, 'index')).toEqual(['0', '1']);
    expect(resultOf(answer, 'id')).toEqual(['a', '']);
    expect(resultOf(answer, 'result_status')).toEqual(['200', '422']);
  });
});

describe('the summary', () => {
  const payload = () => table([...exampleRows, { ...exampleRows[0]!, car: 'Fifth', discharge_rest: 'open' }]);

  it('is JSON, a table or a page', async () => {
    const json = await send(payload(), 'text/csv', `${RULESET}&detail=summary`);
    expect(json.json.summary).toEqual({ count: 5, violationFound: 1, undetermined: 0, noViolationFound: 4, errors: 0 });
    expect(json.json.mistakes.map((one: { rule: string }) => one.rule)).toContain('discharge-fail-safe');
    expect(json.json.anotherLook).toMatchObject([{ id: 'Fifth', reason: 'violation-found' }]);
    const csv = await send(payload(), 'text/csv', `${RULESET}&detail=summary&format=csv`);
    expect(csv.text).toContain('verdicts,violationFound,cars,1\r\n');
    const page = await send(payload(), 'text/csv', `${RULESET}&detail=summary`, { accept: 'text/markdown' });
    expect(page.headers['content-type']).toBe('text/markdown; charset=utf-8');
    expect(page.text).toContain('# Summary of the event');
  });
});

describe('places in a whole circuit', () => {
  const elements = [
    { id: 'pack', kind: 'accumulator', nodes: ['p', 'n'], zone: 'container', voltage: 400 },
    { id: 'fuse-1', kind: 'fuse', nodes: ['p', 'n'], zone: 'container', ratedCurrent: '5 V' },
  ];
  const faulty = JSON.stringify({ circuit: { elements } });

  it('are told by the id of the element that they are in', async () => {
    const answer = await send(faulty, 'application/x-ndjson', `${RULESET}&format=csv`);
    expect(resultOf(answer, 'result_message')[0]).toMatch(/^elements "fuse-1": ratedCurrent: /);
  });

  it('are told so in the summary too, beside the pointer', async () => {
    const open = JSON.stringify({ circuit: { elements: [elements[0], { ...elements[1], ratedCurrent: 5 }] } });
    const query = `${RULESET}&detail=summary`;
    const { anotherLook } = (
      await send(`${faulty}\n${open}`, 'application/x-ndjson', query, { accept: 'application/json' })
    ).json;
    expect(anotherLook[0]).toMatchObject({ missing: ['#/circuit/elements/1/ratedCurrent'], missingIn: ['fuse-1'] });
    expect(anotherLook[1].missingIn).toHaveLength(anotherLook[1].missing.length);
    const table = await send(faulty, 'application/x-ndjson', `${query}&format=csv`);
    expect(table.text).toContain('"invalid-request; elements ""fuse-1"": ratedCurrent"');
  });
});

describe('a wish that cannot be met', () => {
  it.each<[string, string, Record<string, string>, number, string]>([
    ['a page of single cars', '?format=markdown', {}, 400, 'invalid-query'],
    ['lines of a summary', '?detail=summary&format=ndjson', {}, 400, 'invalid-query'],
    ['lines of a summary, by header', '?detail=summary', { accept: 'application/x-ndjson' }, 406, 'not-acceptable'],
    ['a picture', '', { accept: 'image/png' }, 406, 'not-acceptable'],
    ['an unknown detail', '?detail=most', {}, 400, 'invalid-query'],
    ['two details', '?detail=full&detail=verdict', {}, 400, 'invalid-query'],
    ['an unknown ruleset', '?ruleset=no-such', {}, 400, 'invalid-query'],
    ['a meter in farad', '?meterResistance=4F', {}, 400, 'invalid-query'],
    ['an unknown parameter', '?details=full', {}, 400, 'invalid-query'],
    ['a compressed body', '', { 'content-encoding': 'gzip' }, 415, 'unsupported-media-type'],
    [
      'lines in another charset',
      '',
      { 'content-type': 'application/x-ndjson; charset=latin1' },
      415,
      'unsupported-media-type',
    ],
    ['plain text', '', { 'content-type': 'text/plain' }, 415, 'unsupported-media-type'],
  ])('%s', async (_name, query, headers, status, code) => {
    const answer = await send(JSON.stringify(small), 'application/x-ndjson', query, headers);
    expect([answer.status, answer.json.code]).toEqual([status, code]);
  });

  it('is named with all its faults at once', async () => {
    const query = '?details=full&detail=most&format=pdf&ruleset=no-such&decimal=dot';
    const answer = await send(JSON.stringify(small), 'application/x-ndjson', query);
    expect([answer.status, answer.json.detail]).toEqual([400, 'The query has 5 faults; errors lists all of them.']);
    expect(
      answer.json.errors.map(({ parameter, code }: { parameter: string; code: string }) => [parameter, code]).sort(),
    ).toEqual([
      ['decimal', 'not-one-of'],
      ['detail', 'not-one-of'],
      ['details', 'unknown-parameter'],
      ['format', 'unknown-format'],
      ['ruleset', 'unknown-ruleset'],
    ]);
  });

  it('is met where the caller says what it wants', async () => {
    const list = JSON.stringify([small]);
    expect((await send(list, 'application/json', '?format=ndjson')).headers['content-type']).toContain('x-ndjson');
    expect((await send(list, 'application/json', '', { accept: 'text/csv' })).headers['content-type']).toContain('csv');
    expect((await send(list, 'application/json', '', { accept: '*/*' })).headers['content-type']).toContain('/json');
  });
});
