/**
 * The text of a program that does of `curl` what the recipes and the README use, so that they are run where there is
 * none; a machine's own would do as well.
 */
export const STAND_IN_CURL = `#!${process.execPath}
const fs = require('node:fs');
const argv = process.argv.slice(2);
const headers = {};
const data = [];
let url, file, get = false, fail = false;
const read = (value) => (value.startsWith('@') ? fs.readFileSync(value === '@-' ? 0 : value.slice(1), 'utf8') : value);
while (argv.length > 0) {
  const one = argv.shift();
  if (one === '-fsS') fail = true;
  else if (one === '-s') continue;
  else if (one === '-G') get = true;
  else if (one === '-H') { const [name, value] = argv.shift().split(': '); headers[name] = value; }
  else if (one === '--data-urlencode') { const [name, ...rest] = argv.shift().split('='); data.push(name + '=' + encodeURIComponent(rest.join('='))); }
  else if (one === '-d' || one === '--data-binary') data.push(read(argv.shift()));
  else if (one === '-o') file = argv.shift();
  else if (one.startsWith('-')) throw new Error('unknown option ' + one);
  else url = one;
}
const query = get && data.length > 0 ? '?' + data.join('&') : '';
const body = get || data.length === 0 ? {} : { method: 'POST', body: data.join('&') };
fetch(url + query, { headers, ...body }).then(async (answer) => {
  if (fail && !answer.ok) process.exit(22);
  const bytes = Buffer.from(await answer.arrayBuffer());
  if (file === undefined) fs.writeSync(1, bytes);
  else fs.writeFileSync(file, bytes);
});
`;
