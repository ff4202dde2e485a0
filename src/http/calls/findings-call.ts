import { findBreaches, forEachRuleset, JudgeRequestSchema } from '../../verify/index.js';
import { serialise } from '../json/serialise.js';
import { readBody } from '../read-body.js';
import type { Call } from './call.js';
import { costOf } from './cost-of.js';

/** The rules alone. */
export const findingsCall: Call = (body) => {
  const wanted = readBody(JudgeRequestSchema, body);
  return { ...costOf(wanted, true), answer: () => serialise(forEachRuleset(wanted, findBreaches)) };
};
