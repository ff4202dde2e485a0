import type { CodePage } from './all-codes.js';

/** A code's explanation as a small HTML page. The texts are our own; they are escaped all the same. */
export function problemPage(page: CodePage): string {
  const status = page.status === undefined ? '' : `<p>HTTP status ${page.status}.</p>`;
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${escaped(page.title)}</title>
<h1>${escaped(page.title)}</h1>
<p><code>${escaped(page.code)}</code></p>
${status}<p>${escaped(page.explanation)}</p>
<p><a href="/problems">All codes</a> · <a href="/docs">The manual</a></p>
</html>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
