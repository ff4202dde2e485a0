import { capacities } from '../capacities.js';
import { type Directory, looseDirectory } from '../directory.js';
import type { Fault } from '../fault.js';
import { isRecord } from '../is-record.js';
import type { LooseCircuit } from '../loose-circuit.js';
import { makeFault } from '../make-fault.js';
import { childPointer } from '../pointer.js';
import { quoted } from '../quoted.js';
import { elementFaults, nodeFaults, nodePairFaults } from '../references.js';
import { sequenceChecks } from './sequence-checks.js';

/** Faults of the names by which the rest of a circuit refers to its elements and nodes. */
export function referenceChecks(circuit: LooseCircuit): Fault[] {
  const { raw, pointer } = circuit;
  const directory = looseDirectory(circuit);
  const control = recordIn(raw, 'control');
  const precharge = recordIn(control, 'precharge');
  const controlPlace = childPointer(pointer, 'control');
  const prechargePlace = childPointer(controlPlace, 'precharge');
  const containerIndicator = recordIn(raw, 'containerIndicator');
  return [
    ...nodePairFaults(raw['link'], childPointer(pointer, 'link'), directory),
    ...nodeFaults(raw['chassis'], childPointer(pointer, 'chassis'), directory),
    ...measuringPointFaults(recordIn(raw, 'measuringPoints'), childPointer(pointer, 'measuringPoints'), directory),
    ...sequenceChecks(control['sequence'], childPointer(controlPlace, 'sequence'), directory),
    ...nodePairFaults(precharge['accumulatorSense'], childPointer(prechargePlace, 'accumulatorSense'), directory),
    ...nodePairFaults(precharge['linkSense'], childPointer(prechargePlace, 'linkSense'), directory),
    ...indicatorFaults(recordIn(raw, 'indicator'), childPointer(pointer, 'indicator'), directory),
    ...nodePairFaults(containerIndicator['senses'], childPointer(pointer, 'containerIndicator', 'senses'), directory),
    ...listIn(raw, 'containerIndicators').flatMap((each, index) =>
      nodePairFaults(
        isRecord(each) ? each['senses'] : undefined,
        childPointer(pointer, 'containerIndicators', index, 'senses'),
        directory,
      ),
    ),
  ];
}

function measuringPointFaults(
  points: Readonly<Record<string, unknown>>,
  pointer: string,
  directory: Directory,
): Fault[] {
  const { positive, negative } = points;
  const faults = [
    ...nodeFaults(positive, childPointer(pointer, 'positive'), directory),
    ...nodeFaults(negative, childPointer(pointer, 'negative'), directory),
  ];
  if (typeof positive === 'string' && positive === negative) {
    const detail = `Both measuring points are on the node ${quoted(positive)}; they must differ.`;
    faults.push(makeFault(pointer, 'same-nodes', detail));
  }
  return faults;
}

function indicatorFaults(indicator: Readonly<Record<string, unknown>>, pointer: string, directory: Directory): Fault[] {
  return [
    ...listIn(indicator, 'watches').flatMap((id, index) =>
      elementFaults(id, childPointer(pointer, 'watches', index), directory, ['contact']),
    ),
    ...listIn(indicator, 'senses').flatMap((pair, index) =>
      nodePairFaults(pair, childPointer(pointer, 'senses', index), directory),
    ),
  ];
}

function recordIn(record: Readonly<Record<string, unknown>>, key: string): Readonly<Record<string, unknown>> {
  const value = record[key];
  return isRecord(value) ? value : {};
}

function listIn(record: Readonly<Record<string, unknown>>, key: string): readonly unknown[] {
  const value = record[key];
  return Array.isArray(value) ? value.slice(0, capacities.elements) : [];
}
