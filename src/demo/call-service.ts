/**
 * One call over HTTP.
 * @param body posted as JSON; absent: a GET
 * @returns the answer's JSON, taken to be what the service's contract promises
 * @throws Error that quotes the answer where its status is not 200
 */
export async function callService<Answer>(address: string, path: string, body?: unknown): Promise<Answer> {
  const response = await fetch(
    new URL(path, address),
    body === undefined
      ? {}
      : { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) },
  );
  const text = await response.text();
  if (response.status !== 200) throw new Error(`${path} answered ${response.status}: ${text}`);
  return JSON.parse(text) as Answer;
}
