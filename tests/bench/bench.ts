import { batch } from './batch.js';
import { coreAgainstIntegrator } from './core-against-integrator.js';
import { growth } from './growth.js';
import { tolerancedParts } from './toleranced-parts.js';
import { verification } from './verification.js';

/** Ratios measured in one run on one machine; absolute times are only there to see what a ratio is of. */
coreAgainstIntegrator();
growth();
tolerancedParts();
await verification();
await batch();
