import type { QuantityKind } from '@tubgap/units';
import { z } from 'zod';
import type { Problem } from './issue.ts';
import type { Reading } from './quantity.ts';

/** Name of a kind's entry under `$defs` in the JSON Schema. */
export function definitionName(kind: QuantityKind, withLaw: boolean): string {
  return `${kind.replaceAll(' ', '-')}${withLaw ? '-or-law' : ''}`;
}

/** Pointer to a kind's entry in the JSON Schema. */
export function definition(kind: QuantityKind, withLaw: boolean): string {
  return `#/$defs/${definitionName(kind, withLaw)}`;
}

type Context = Pick<z.core.$RefinementCtx<unknown>, 'addIssue'>;

/** Hands a problem to zod; the reader of its issues takes it out again. */
export function fail(context: Context, problem: Problem): never {
  context.addIssue({ code: 'custom', params: { problem }, input: undefined });
  return z.NEVER;
}

/** A single value, read by a reader of our own. Its JSON Schema comes from `meta`. */
export function leaf<T>(read: (raw: unknown) => Reading<T>) {
  return z.unknown().transform((raw, context): T => {
    const result = read(raw);
    return result.ok ? result.value : fail(context, result.problem);
  });
}

/**
 * A group of named fields, none besides them. The issue of an unknown field carries the known names in its message,
 * one a line, so that the nearest can be offered.
 */
export function section<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  const names = Object.keys(shape).join('\n');
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? names : undefined),
  });
}

/** Reads with another schema inside a transform; its issues keep their places. Undefined when there were any. */
export function forward<T extends z.ZodType>(
  schema: T,
  raw: unknown,
  context: Context,
): z.output<T> | undefined {
  // What is read once is not worth a reader compiled for it.
  const result = schema.safeParse(raw, { reportInput: true, jitless: true });
  if (result.success) return result.data;
  for (const issue of result.error.issues)
    context.addIssue({ ...issue } as Parameters<Context['addIssue']>[0]);
  return undefined;
}

/** JSON Schema of what a part of the file may look like before it is read. */
export function writtenForm(schema: z.ZodType): Record<string, unknown> {
  const { $schema: _, ...form } = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' });
  return form;
}

/** One of two forms, told apart by a look at what was written. */
export function eitherForm<A extends z.ZodType, B extends z.ZodType>(
  first: A,
  second: B,
  isFirst: (raw: unknown) => boolean,
) {
  return z
    .unknown()
    .transform((raw, context): z.output<A> | z.output<B> => {
      const read = isFirst(raw) ? forward(first, raw, context) : forward(second, raw, context);
      return read === undefined ? z.NEVER : (read as z.output<A> | z.output<B>);
    })
    .meta({ anyOf: [writtenForm(first), writtenForm(second)] });
}
