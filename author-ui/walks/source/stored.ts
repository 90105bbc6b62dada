import { failure, type Result } from '../../../engine/result.ts';
import type { SourceProblem } from './walk-source.ts';

/** What a question of this browser's storage comes to: storage that cannot be read or written is told, like a hub that does not answer. */
export async function stored<T>(work: () => Promise<Result<T, SourceProblem>>): Promise<Result<T, SourceProblem>> {
  try {
    return await work();
  } catch (error) {
    return failure({ code: 'browser-storage', detail: error instanceof Error ? `${error.name}: ${error.message}`.slice(0, 200) : '' });
  }
}
