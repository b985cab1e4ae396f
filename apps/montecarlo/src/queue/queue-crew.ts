import type { Crew } from '../shards/crew.ts';
export async function queueCrew(): Promise<Crew> {
  throw new Error('none');
}
