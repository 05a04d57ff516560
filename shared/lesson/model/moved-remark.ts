import type { Severity } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';

/** What a teacher should know of a grid that an edition plays on another instrument. Spans count in the grid's entry. */
export interface MovedRemark {
  readonly severity: Severity;
  readonly code: string;
  readonly span: Span;
  readonly message: string;
}
