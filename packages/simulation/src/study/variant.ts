import { BLOCK } from '@tubgap/statistics';
import { fillColumns, fillSettled } from '../draws.ts';
import { type Direction, fillNormals, setDirection } from '../importance/normal-space.ts';
import { type BlockRoom, createBlockRoom } from '../run-risk.ts';
import type { SampledBlock } from '../runner.ts';
import { isSameInput, isSameTrack } from '../setup.ts';
import type { StudyPoint } from './study-point.ts';

/** Room for a block of a setup that stands beside a base. */
export interface VariantRoom {
  room: BlockRoom;
  /** Its columns that are the base's own: same stream, same law. They need not be filled. */
  shared: ReadonlySet<Float64Array>;
  /** Its directions, each with those of its targets whose columns are not the base's. */
  directions: readonly Direction[];
}

/** Whether a value that no draw changes is the same in both setups. */
const isEqual = (one: unknown, other: unknown): boolean =>
  one === other || JSON.stringify(one) === JSON.stringify(other);

/** Whether the same draws have the same car and tyre in both, for one of the setup's tyres. */
function isSameTyre({ setup, tyreOf }: StudyPoint, base: StudyPoint, tyre: number): boolean {
  const own = setup.tyres[tyre]!;
  const beside = base.setup.tyres[tyreOf[tyre]!];
  if (beside === undefined || !isEqual(own.setup, beside.setup)) return false;
  return (['car', 'tyre'] as const).every((group) =>
    own[group].every((input, c) => isSameInput(input, beside[group][c]!)),
  );
}

/** Whether the same draws put the axle at the same height in both. */
function isSameAxle(point: StudyPoint, base: StudyPoint): boolean {
  const { setup, tyreOf } = point;
  if (setup.axleHeight !== base.setup.axleHeight) return false;
  if (setup.axleHeight !== undefined) return true;
  const builds = tyreOf[setup.buildIndex] === base.setup.buildIndex;
  return (
    builds && setup.buildPressure === base.setup.buildPressure && isSameTyre(point, base, setup.buildIndex)
  );
}

/** Whether a tyre's runs go down the same track in both, with the same gap to be kept. */
const isSameRun = ({ setup, tyreOf }: StudyPoint, base: StudyPoint, tyre: number): boolean =>
  isEqual(setup.tyres[tyre]!.run, base.setup.tyres[tyreOf[tyre]!]?.run);

/** Whether nothing of the car but its tubs differs from the base: then one pass through the model serves both. */
export function differsInTubsAlone(point: StudyPoint, base: StudyPoint): boolean {
  const { tubs: _, ...own } = point.setup.clearance;
  const { tubs: __, ...others } = base.setup.clearance;
  const { tyres } = point.setup;
  return (
    tyres.length === base.setup.tyres.length &&
    tyres.every(
      (___, i) => point.tyreOf[i] === i && isSameTyre(point, base, i) && isSameRun(point, base, i),
    ) &&
    isSameAxle(point, base) &&
    isEqual(own, others)
  );
}

/** Whether a tyre of a setup does in every run what the base's does. */
const isUntouched = (point: StudyPoint, base: StudyPoint, tyre: number): boolean =>
  isSameTyre(point, base, tyre) &&
  isSameRun(point, base, tyre) &&
  isSameAxle(point, base) &&
  isEqual(point.setup.clearance, base.setup.clearance) &&
  isEqual(point.setup.lowestHeights, base.setup.lowestHeights);

/**
 * Room for one block of a setup; what is drawn there by the same law as in the base stands in the base's columns, moments
 * of the same car in its moments, and a tyre that nothing is changed for in its table: the base's block is evaluated first.
 */
export function createVariantRoom(point: StudyPoint, base: StudyPoint, baseRoom: BlockRoom): VariantRoom {
  const own = createBlockRoom(point.setup);
  const shared = new Set<Float64Array>();
  // What several tyres have in common is one column in the base's place as well.
  const taken = new Map<Float64Array, Float64Array>();
  const columns = own.columns.map((column, i) => {
    const beside = base.setup.tyres[point.tyreOf[i]!];
    const isDrawnAlike = point.drawn[i]!.tyreName === beside?.tyreName;
    const take = (group: 'car' | 'tyre'): Float64Array[] =>
      column[group].map((empty, c) => {
        const known = taken.get(empty);
        if (known !== undefined) return known;
        taken.set(empty, empty);
        const there = group === 'tyre' && !isDrawnAlike ? undefined : beside?.[group][c];
        if (there === undefined || !isSameInput(point.setup.tyres[i]![group][c]!, there)) return empty;
        const filled = baseRoom.columns[point.tyreOf[i]!]![group][c]!;
        shared.add(filled);
        taken.set(empty, filled);
        return filled;
      });
    return { ...column, car: take('car'), tyre: take('tyre') };
  });
  const filledElsewhere = new Set<BlockRoom['moments' | 'tables'][number]>();
  const moments = own.moments.map((empty, i) => {
    const filled = baseRoom.moments[point.tyreOf[i]!];
    const beside = base.setup.tyres[point.tyreOf[i]!];
    if (filled === undefined || beside === undefined) return empty;
    const isShared =
      columns[i]!.car.every((column) => shared.has(column)) &&
      isSameTrack(point.setup.tyres[i]!.run, beside.run);
    if (!isShared) return empty;
    filledElsewhere.add(filled);
    return filled;
  });
  const tables = own.tables.map((empty, i) => {
    if (!isUntouched(point, base, i)) return empty;
    const filled = baseRoom.tables[point.tyreOf[i]!]!;
    filledElsewhere.add(filled);
    return filled;
  });
  const room = { ...own, columns, moments, tables, filledElsewhere };
  fillSettled(point.setup.tyres, columns);
  const directions = point.space.directions.flatMap((direction): Direction[] => {
    const targets = direction.targets.filter(
      ({ tyre, group, index }) => !shared.has(columns[tyre]![group][index]!),
    );
    return targets.length === 0 ? [] : [{ ...direction, targets }];
  });
  return { room, shared, directions };
}

/** Where standard normal numbers come from that are not given. */
type Address = Pick<SampledBlock, 'seed' | 'prefix' | 'block'>;

/** Puts a block's numbers into columns, each by its law; what has no numbers is drawn plainly under its own name. */
export function setNormals(
  directions: readonly Direction[],
  normals: ReadonlyMap<string, Float64Array>,
  { seed, prefix, block }: Address,
  room: BlockRoom,
): void {
  const own = new Float64Array(BLOCK);
  for (const direction of directions) {
    let numbers = normals.get(direction.stream);
    if (numbers === undefined) {
      fillNormals(direction, seed, prefix, block, BLOCK, own);
      numbers = own;
    }
    setDirection(direction, numbers, BLOCK, room.columns);
  }
}

/** Fills the room of a setup with the draws that stand in the base's. */
export function fillVariant(
  { drawn: tyres }: StudyPoint,
  { room, shared, directions }: VariantRoom,
  drawn: SampledBlock,
): void {
  if (drawn.normals !== undefined) {
    setNormals(directions, drawn.normals, drawn, room);
    return;
  }
  const { seed, prefix, block, count } = drawn;
  const counts = tyres.map(() => count);
  fillColumns(tyres, seed, prefix, block, counts, 'both', room.columns, shared);
}
