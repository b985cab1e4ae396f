import { z } from 'zod';
import { sampleSchema } from './sample-file.ts';
import { resultSchema } from './schema.ts';
import { studySchema } from './study-schema.ts';

type JsonSchema = Record<string, unknown>;

const DIGEST = {
  description: 'SHA-256 of all that follows in the text: a later change shows.',
  type: 'string',
  pattern: '^[0-9a-f]{64}$',
};

/** A layout with the digest that seals it as a file. */
function sealed({ properties, required, ...form }: JsonSchema): JsonSchema {
  return {
    ...form,
    properties: { digest: DIGEST, ...(properties as object) },
    required: ['digest', ...(required as string[])],
  };
}

/** A layout as JSON Schema (draft 2020-12), field by field; a reader of this program asks for more, as that lists agree. */
function fileSchema(layout: z.ZodType, title: string, description: string): JsonSchema {
  const { $schema, oneOf, ...form } = z.toJSONSchema(layout, { io: 'input' }) as JsonSchema;
  const kinds = oneOf === undefined ? sealed(form) : { ...form, oneOf: (oneOf as JsonSchema[]).map(sealed) };
  return { $schema, title, description, ...kinds };
}

/** JSON Schema of result.json. */
export const resultJsonSchema = (): JsonSchema =>
  fileSchema(
    resultSchema,
    'Result of a case',
    'What tubgap pick leaves of a case: SI, lengths in m, angles in rad, risks as probabilities.',
  );

/** JSON Schema of study.json. */
export const studyJsonSchema = (): JsonSchema =>
  fileSchema(
    studySchema,
    'Study of a case',
    'What tubgap sweep, compare and place leave of a case: SI, lengths in m, risks as probabilities.',
  );

/** JSON Schema of sample.json. */
export const sampleJsonSchema = (): JsonSchema =>
  fileSchema(
    sampleSchema,
    'Sample of a case',
    'The simulated runs and seasons of a result, summed up: what its risks follow from. SI, lengths in m.',
  );
