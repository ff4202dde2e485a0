import { Type } from '@sinclair/typebox';
import type { FastifyPluginCallback } from 'fastify';
import { compareRulesets } from '../../rules/compare-rulesets.js';
import { rulesetById } from '../../rules/ruleset-by-id.js';
import { rulesets } from '../../rules/rulesets.js';
import { describe } from '../openapi/describe.js';
import { HttpProblem } from '../problems/http-problem.js';
import { rulesetAnswer, rulesetSummary } from '../catalogue/ruleset-answers.js';
import { sendCatalogue } from '../catalogue/send-catalogue.js';

const list = { rulesets: rulesets.map(rulesetSummary) };
const answers = new Map(rulesets.map((ruleset) => [ruleset.id, rulesetAnswer(ruleset)]));

/** The rulebooks as data: which rows there are, where each stands and how sure we are of it. */
export const rulesetRoutes: FastifyPluginCallback = (app, _options, done) => {
  app.get(
    '/v1/rulesets',
    {
      schema: describe({
        operationId: 'listRulesets',
        tag: 'Catalogue',
        summary: 'Every ruleset',
        description: 'The rulebooks that a circuit can be judged by. A request names one; none is taken by default.',
        answer: {
          description: 'Ids, revisions and sources.',
          schema: Type.Object({ rulesets: Type.Array(Type.Ref('RulesetSummary')) }, { additionalProperties: true }),
        },
        cached: true,
      }),
    },
    (request, reply) => sendCatalogue(request, reply, list),
  );

  app.get<{ Params: { id: string } }>(
    '/v1/rulesets/:id',
    {
      schema: describe({
        operationId: 'getRuleset',
        tag: 'Catalogue',
        summary: 'One ruleset, row by row',
        description:
          'Every parameter and rule with its clause and `confirmed`: read in the source, known second-hand, from memory, or our own where the book is silent.',
        params: Type.Object({ id: Type.String() }),
        answer: { description: 'The ruleset.', schema: Type.Ref('Ruleset') },
        problems: ['not-found'],
        cached: true,
      }),
    },
    (request, reply) => {
      const answer = answers.get(request.params.id);
      if (answer === undefined) throw unknownRuleset();
      return sendCatalogue(request, reply, answer);
    },
  );

  app.get<{ Params: { id: string; other: string } }>(
    '/v1/rulesets/:id/differences/:other',
    {
      schema: describe({
        operationId: 'compareRulesets',
        tag: 'Catalogue',
        summary: 'What changes from one ruleset to another',
        description:
          'Row by row: parameters whose value or clause differs, rules that only one of the two has or that differ in weight or clauses. So a team sees what a new season changes for it.',
        params: Type.Object({ id: Type.String(), other: Type.String() }),
        answer: {
          description: 'The differences; empty lists where there are none.',
          schema: Type.Ref('RulesetDifferences'),
        },
        problems: ['not-found'],
        cached: true,
      }),
    },
    (request, reply) => {
      const from = rulesetById(request.params.id);
      const to = rulesetById(request.params.other);
      if (from === undefined || to === undefined) throw unknownRuleset();
      return sendCatalogue(request, reply, compareRulesets(from, to));
    },
  );
  done();
};

function unknownRuleset(): HttpProblem {
  return new HttpProblem('not-found', `No ruleset has this id; there are ${[...answers.keys()].join(', ')}.`);
}
