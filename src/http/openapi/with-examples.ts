import { requestExamples } from './request-examples.js';

interface Operation {
  operationId?: string;
  requestBody?: object;
}

/** The document with example bodies at its operations; the generator keeps no examples of request bodies by itself. */
export function withExamples<D extends { paths?: object | undefined }>(document: D): D {
  for (const item of Object.values(document.paths ?? {})) {
    for (const operation of Object.values(item as Record<string, Operation>)) {
      const examples = requestExamples[operation.operationId ?? ''];
      const content = (operation.requestBody as { content?: Record<string, { examples?: unknown }> } | undefined)
        ?.content;
      const json = content?.['application/json'];
      if (json !== undefined && examples !== undefined) json.examples = examples;
    }
  }
  return document;
}
