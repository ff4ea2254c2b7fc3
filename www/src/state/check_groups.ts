/** Light checks as they are shown: the same finding about several regions is one entry. */
import type { LightCheck } from '../engine/types';

export interface CheckGroup {
  first: LightCheck;
  /** The same code at the same severity, about other regions. */
  others: LightCheck[];
}

export function groupChecks(checks: readonly LightCheck[]): CheckGroup[] {
  const groups: CheckGroup[] = [];
  for (const check of checks) {
    const alike = groups.find(({ first }) => first.code === check.code && first.severity === check.severity && first.region && check.region);
    if (alike) alike.others.push(check);
    else groups.push({ first: check, others: [] });
  }
  return groups;
}
