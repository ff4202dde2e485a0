import { writeFile } from 'node:fs/promises';
import { buildApp } from './build-app.js';

/** Writes openapi/openapi.yaml from the service as it is. */
const app = await buildApp();
const file = new URL('../../openapi/openapi.yaml', import.meta.url);
await writeFile(file, app.swagger({ yaml: true }));
await app.close();
console.log(`wrote ${file.pathname}`);
