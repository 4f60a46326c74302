/**
 * The part of OASIS "Static Analysis Results Interchange Format (SARIF) Version 2.1.0", sarif-schema-2.1.0.json, that
 * this tool can write: the same required fields, closed sets of values and ranges, with `additionalProperties: false`
 * where the standard's schema has it. Written by hand from the standard, so a name the standard lacks is refused.
 */

const closed = (properties: object, required: readonly string[] = []) => ({
  type: 'object',
  properties: { ...properties, properties: { type: 'object' } },
  required,
  additionalProperties: false,
})
const text = { type: 'string' }
const list = (items: object, more: object = {}) => ({ type: 'array', items, ...more })
const use = (name: string) => ({ $ref: `#/definitions/${name}` })

export const sarifSubset = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  ...closed(
    {
      $schema: { type: 'string', format: 'uri' },
      version: { enum: ['2.1.0'] },
      runs: list(use('run'), { minItems: 0 }),
    },
    ['version', 'runs'],
  ),
  definitions: {
    run: closed(
      {
        tool: use('tool'),
        invocations: list(use('invocation')),
        columnKind: { enum: ['utf16CodeUnits', 'unicodeCodePoints'] },
        results: list(use('result')),
      },
      ['tool'],
    ),
    tool: closed({ driver: use('toolComponent') }, ['driver']),
    toolComponent: closed(
      { name: text, semanticVersion: text, rules: list(use('reportingDescriptor'), { uniqueItems: true }) },
      ['name'],
    ),
    reportingDescriptor: closed(
      {
        id: text,
        shortDescription: use('multiformatMessageString'),
        fullDescription: use('multiformatMessageString'),
        help: use('multiformatMessageString'),
        defaultConfiguration: closed({
          level: use('level'),
          rank: { type: 'number', minimum: -1, maximum: 100 },
        }),
      },
      ['id'],
    ),
    multiformatMessageString: closed({ text, markdown: text }, ['text']),
    invocation: closed({ executionSuccessful: { type: 'boolean' } }, ['executionSuccessful']),
    result: {
      ...closed(
        {
          ruleId: text,
          ruleIndex: { type: 'integer', minimum: -1 },
          kind: {
            enum: ['notApplicable', 'pass', 'fail', 'review', 'open', 'informational'],
            default: 'fail',
          },
          level: use('level'),
          message: use('message'),
          locations: list(use('location')),
          relatedLocations: list(use('location'), { uniqueItems: true }),
          partialFingerprints: { type: 'object', additionalProperties: text },
          suppressions: list(use('suppression'), { uniqueItems: true }),
        },
        ['message'],
      ),
      // Prose rule of the standard (level property): if kind is anything but "fail", level is "none".
      if: {
        properties: { kind: { enum: ['notApplicable', 'pass', 'review', 'open', 'informational'] } },
        required: ['kind'],
      },
      // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
      then: { properties: { level: { const: 'none' } }, required: ['level'] },
    },
    level: { enum: ['none', 'note', 'warning', 'error'] },
    message: { ...closed({ text, id: text }), anyOf: [{ required: ['text'] }, { required: ['id'] }] },
    location: closed({
      physicalLocation: use('physicalLocation'),
      logicalLocations: list(closed({ fullyQualifiedName: text }), { uniqueItems: true }),
      message: use('message'),
    }),
    physicalLocation: {
      ...closed({
        artifactLocation: closed({ uri: { type: 'string', format: 'uri-reference' } }),
        region: use('region'),
      }),
      anyOf: [{ required: ['address'] }, { required: ['artifactLocation'] }],
    },
    region: closed({
      startLine: { type: 'integer', minimum: 1 },
      startColumn: { type: 'integer', minimum: 1 },
    }),
    suppression: closed(
      {
        kind: { enum: ['inSource', 'external'] },
        status: { enum: ['accepted', 'underReview', 'rejected'] },
        justification: text,
        location: use('location'),
      },
      ['kind'],
    ),
  },
} as const
