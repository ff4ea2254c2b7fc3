/** Stands in for `offline/start`: the program is this file, and needs no copy. */
import { programCopy } from '../../state/offline';

export async function startOffline(): Promise<void> {
  programCopy.value = 'file';
}
