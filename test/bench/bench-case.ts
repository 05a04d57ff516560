/** One thing that is measured. The budget, where there is one, is for the p95 unless it says median. Unit: milliseconds. */
export interface BenchCase {
  readonly name: string;
  readonly budgetMs?: number;
  readonly budgetOf?: 'p95' | 'median';
  /** The case that this one is set in ratio to, measured in the same run. */
  readonly reference?: string;
  /** How many times as fast as the reference it should be, medians compared. */
  readonly timesAsFast?: number;
  readonly run: () => unknown;
}
