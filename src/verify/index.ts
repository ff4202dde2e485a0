/** Puts the parts together: requests read, one circuit judged into one report. */
export { canonicalJson } from './canonical-json.js';
export { cautions } from './cautions.js';
export { type CheckAnswer, checkCircuit } from './check-circuit.js';
export { CONTRACT_VERSION, ENGINE_VERSION } from './engine-version.js';
export type { Event } from './event.js';
export { findBreaches, type FindingsAnswer } from './find-breaches.js';
export { findLimits, type LimitsAnswer } from './find-limits.js';
export { forEachRuleset } from './for-each-ruleset.js';
export type { Case } from './prepare.js';
export { type Probe, type ProbeQuantity, probeUnits } from './probe.js';
export { readRequest, type Request, type RequestReading } from './read-request.js';
export type { FigureAnswer, Provenance, Report, TimeFigureAnswer } from './report.js';
export { CheckRequestSchema, JudgeRequestSchema, LimitsRequestSchema, VerifyRequestSchema } from './requests.js';
export { significant } from './significant.js';
export { transientsInput } from './transients-input.js';
export { type TransientsAnswer, type TransientsInput, TransientsRequestSchema } from './transients-schema.js';
export { verifyCircuit } from './verify-circuit.js';
