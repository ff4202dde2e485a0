import { counted, noCounts, outcomeOf } from '../batch/batch-counts.js';
import type { ElementIds } from '../batch/element-ids.js';
import type { ItemId } from '../batch/read-item.js';
import { cautions } from '../cautions.js';
import type { CarRecord } from './car-record.js';
import type { EventSummary } from './event-summary-schema.js';

/** How many of each list are kept: a summary is to be read, and a batch may have any number of cars. */
export const SUMMARY_LENGTHS = { ids: 20, margins: 20, anotherLook: 1000, missing: 20 } as const;
/** Relative: limits kept by less deserve a second look. Ours. */
export const CLOSE_MARGIN = 0.05;

type Counts = { -readonly [K in keyof EventSummary['rules'][number]]: EventSummary['rules'][number][K] };
type Look = EventSummary['anotherLook'][number];

export interface SummarisedCar {
  readonly index: number;
  readonly id: ItemId;
  /** Of the parts that what is missing or wrong belongs to. */
  readonly elements?: ElementIds;
}

/** Adds cars up, one at a time, in memory that does not grow with their number. */
export class EventSummariser {
  #summary = noCounts();
  readonly #rules = new Map<string, Counts>();
  readonly #mistakes = new Map<string, { title: string; cars: number; ids: ItemId[] }>();
  #margins: EventSummary['margins'] = [];
  readonly #looks: Look[] = [];
  #lookCount = 0;

  /** A car that was judged. */
  add({ elements, ...car }: SummarisedCar, { verdict, findings, margins }: CarRecord): void {
    this.#summary = counted(this.#summary, outcomeOf[verdict]);
    for (const { rule, title, weight, status, causedBy } of findings) {
      const counts = this.#countsOf(rule, title);
      // A rule that is one in some rulebook of the batch is shown as one.
      if (weight === 'rule') counts.weight = 'rule';
      counts[status === 'not-applicable' ? 'notApplicable' : status] += 1;
      if (status === 'violated' && weight === 'rule' && (causedBy ?? []).length === 0) this.#blame(rule, title, car.id);
    }
    const close = margins.map((margin) => ({ ...car, ...margin }));
    this.#margins = [...this.#margins, ...close]
      .sort((a, b) => a.margin - b.margin || a.index - b.index)
      .slice(0, SUMMARY_LENGTHS.margins);

    const binding = findings.filter(({ weight }) => weight === 'rule');
    const status = verdict === 'violation-found' ? 'violated' : 'undetermined';
    if (verdict !== 'no-violation-found') {
      const open = binding.filter((finding) => finding.status === status);
      const missing = new Set(open.flatMap((finding) => finding.missing ?? []));
      this.#look({ ...car, reason: verdict, rules: open.map(({ rule }) => rule), ...firstOf(missing, elements) });
    } else if ((margins[0]?.margin ?? Number.POSITIVE_INFINITY) < CLOSE_MARGIN) {
      const limits = margins.filter(({ margin }) => margin < CLOSE_MARGIN).map(({ limit }) => limit);
      this.#look({ ...car, reason: 'close-margin', rules: limits, ...firstOf(new Set()) });
    }
  }

  /** A car that could not be judged, by the code of its problem and the places where its description has faults. */
  addProblem({ elements, ...car }: SummarisedCar, code: string, places: readonly string[]): void {
    this.#summary = counted(this.#summary, 'errors');
    this.#look({ ...car, reason: 'problem', rules: [code], ...firstOf(new Set(places), elements) });
  }

  summary(): EventSummary {
    const rules = [...this.#rules.values()].filter(
      ({ met, violated, undetermined }) => met + violated + undetermined > 0,
    );
    return {
      summary: this.#summary,
      rules: rules.sort(
        (a, b) => b.violated - a.violated || b.undetermined - a.undetermined || (a.rule < b.rule ? -1 : 1),
      ),
      mistakes: Array.from(this.#mistakes, ([rule, mistake]) => ({ rule, ...mistake })).sort(
        (a, b) => b.cars - a.cars || (a.rule < b.rule ? -1 : 1),
      ),
      margins: this.#margins,
      anotherLook: this.#looks,
      anotherLookCount: this.#lookCount,
      cautions: [...cautions],
    };
  }

  #countsOf(rule: string, title: string): Counts {
    let counts = this.#rules.get(rule);
    if (counts === undefined) {
      counts = { rule, title, weight: 'advice', violated: 0, undetermined: 0, met: 0, notApplicable: 0 };
      this.#rules.set(rule, counts);
    }
    return counts;
  }

  #blame(rule: string, title: string, id: ItemId): void {
    const mistake = this.#mistakes.get(rule) ?? { title, cars: 0, ids: [] };
    mistake.cars += 1;
    if (mistake.ids.length < SUMMARY_LENGTHS.ids) mistake.ids.push(id);
    this.#mistakes.set(rule, mistake);
  }

  #look(look: Look): void {
    this.#lookCount += 1;
    if (this.#looks.length < SUMMARY_LENGTHS.anotherLook) this.#looks.push(look);
  }
}

function firstOf(places: ReadonlySet<string>, elements: ElementIds = {}): Pick<Look, 'missing' | 'missingIn'> {
  const missing = [...places].slice(0, SUMMARY_LENGTHS.missing);
  return { missing, missingIn: missing.map((place) => elements[place] ?? null) };
}
