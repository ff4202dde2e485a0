import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { rules, rulesets } from '../../rules/index.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';
import { describe } from '../openapi/describe.js';

const list = {
  rules: rules.map(({ meta: { id, title, rationale, parameters, inspect } }) => ({
    id,
    title,
    rationale,
    parameters,
    inspect,
    rulesets: rulesets.flatMap((ruleset) =>
      ruleset.rules
        .filter(({ rule }) => rule === id)
        .map(({ weight, clauses }) => ({ id: ruleset.id, weight, clauses })),
    ),
  })),
};

/** What is judged, rule by rule, and why. */
export const ruleRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/v1/rules',
    {
      schema: describe({
        operationId: 'listRules',
        tag: 'Catalogue',
        summary: 'Every rule',
        description:
          'What each rule asks, why it exists, what to look at on the car, and in which rulesets it is in force.',
        answer: {
          description: 'The rules, in the order of findings.',
          schema: Type.Object({ rules: Type.Array(Type.Ref('Rule')) }, { additionalProperties: true }),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );
  done();
};
