import { findLimits, forEachRuleset, LimitsRequestSchema } from '../../verify/index.js';
import { serialise } from '../json/serialise.js';
import { readBody } from '../read-body.js';
import type { Call } from './call.js';
import { costOf } from './cost-of.js';

/** The bounds on part values alone, and what of a stock fits. */
export const limitsCall: Call = (body) => {
  const wanted = readBody(LimitsRequestSchema, body);
  const answer = () => serialise(forEachRuleset(wanted, (subject) => findLimits(subject, wanted.stock)));
  return { ...costOf(wanted), answer };
};
