// Questions made from the contract alone, sent to a running service. It checks that no body that
// breaks the contract is accepted, that none that keeps it is refused for its shape, that every
// answer is what the contract promises, and that nothing makes the service fail.
//   node fuzz.mjs http://127.0.0.1:8080 [bodies per operation] [seed]
import Ajv from "ajv/dist/2020.js";
import fc from "fast-check";

const [base, runs = "300", seed = "20261125"] = process.argv.slice(2);
const contract = await (await fetch(`${base}/openapi.json`)).json();
const units = new Map();
for (const row of (await (await fetch(`${base}/v1/reference/units`)).json()).rows) {
  for (const u of row.units) units.set(u.code, u);
}
const ajv = new Ajv({ strict: false, allErrors: false, validateFormats: false });
ajv.addSchema(contract, "contract");
const validators = new Map();
function validator(schema, where) {
  if (!validators.has(where)) {
    validators.set(where, ajv.compile({ $ref: `contract#${where}` }));
  }
  return validators.get(where);
}

const resolve = (schema) => {
  if (!schema.$ref) return schema;
  const target = schema.$ref.replace(/^#\//, "").split("/").reduce((at, name) => at[name.replaceAll("~1", "/")], contract);
  return { ...resolve(target), ...Object.fromEntries(Object.entries(schema).filter(([k]) => k !== "$ref")) };
};

// The range of a quantity stands in its description, in one unit of its list.
const range = /Range (-?[\d.e]+) to (-?[\d.e]+) ([A-Za-z_/%0-9]+)\.?$/;
function quantity(schema) {
  const found = range.exec((schema.description ?? "").trim());
  const codes = schema.properties.unit.enum;
  return fc.record({ unit: fc.constantFrom(...codes), at: fc.double({ min: 0, max: 1, noNaN: true }) }).map(({ unit, at }) => {
    const u = units.get(unit);
    if (!found || !u || !units.get(found[3])) return { value: Number((1 + at).toPrecision(6)), unit };
    const from = units.get(found[3]);
    const si = (x) => x * from.factor + (from.offset ?? 0);
    const [low, high] = [si(Number(found[1])), si(Number(found[2]))];
    // Even over the logarithm where the range spans decades, so that small values come up, too.
    // A little inside it, as the words round the bounds of other units.
    const inside = 1e-5 + (1 - 2e-5) * at;
    const x = low > 0 && high / low > 100 ? low * (high / low) ** inside : low + (high - low) * inside;
    return { value: Math.min(Number(((x - (u.offset ?? 0)) / u.factor).toPrecision(9)), 1e12), unit };
  });
}

function generate(raw, depth = 0) {
  const schema = resolve(raw);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  switch (schema.type) {
    case "object": {
      const properties = schema.properties ?? {};
      if (properties.value && properties.unit && Object.keys(properties).length === 2) return quantity(schema);
      const model = {};
      for (const [name, member] of Object.entries(properties)) model[name] = generate(member, depth + 1);
      return fc.record(model, { requiredKeys: schema.required ?? [] });
    }
    case "array":
      return fc.array(generate(schema.items, depth + 1), {
        minLength: schema.minItems ?? 0, maxLength: Math.min(schema.maxItems ?? 4, Math.max(schema.minItems ?? 0, 4)),
      });
    case "string":
      if (schema.format === "date-time") {
        return fc.date({ min: new Date("2020-01-01"), max: new Date("2035-12-31"), noInvalidDate: true }).map((d) => d.toISOString());
      }
      if (schema.format === "date") {
        return fc.date({ min: new Date("2020-01-01"), max: new Date("2035-12-31"), noInvalidDate: true }).map((d) => d.toISOString().slice(0, 10));
      }
      if (schema.pattern) return fc.stringMatching(new RegExp(schema.pattern));
      return fc.string({ minLength: schema.minLength ?? 0, maxLength: Math.min(schema.maxLength ?? 20, 20) });
    case "integer":
      return fc.integer({ min: schema.minimum ?? -1000, max: Math.min(schema.maximum ?? 1000, 2 ** 31 - 1) });
    case "number":
      return fc.double({ min: schema.minimum ?? -180, max: schema.maximum ?? 180, noNaN: true, noDefaultInfinity: true });
    case "boolean":
      return fc.boolean();
    default:
      return fc.constant({});
  }
}

// A good body with some members made anew, each as the contract describes it: most of these keep
// the sense of the whole, so they must be accepted.
function renewed(schema, body) {
  const places = [];
  const walk = (raw, node, path) => {
    const at = resolve(raw);
    if (at.type === "object" && !(at.properties?.value && at.properties?.unit)) {
      for (const [name, member] of Object.entries(at.properties ?? {})) {
        if (name === "boundary" || name === "keep_outs") continue; // random rings are no polygons
        places.push({ path: [...path, name], member });
        if (node?.[name] !== undefined) walk(member, node[name], [...path, name]);
      }
    }
  };
  walk(schema, body, []);
  const one = fc.constantFrom(...places).chain(({ path, member }) => generate(member).map((value) => ({ path, value })));
  return fc.array(one, { minLength: 1, maxLength: 3 }).map((changes) => {
    const copy = structuredClone(body);
    for (const { path, value } of changes) {
      const node = path.slice(0, -1).reduce((at, name) => at?.[name], copy);
      if (node && typeof node === "object") node[path.at(-1)] = value;
    }
    return copy;
  });
}

// One thing made wrong, anywhere in a body.
const hostile = [null, true, "", "x", -1, 0, 1e308, 1e-320, [], {}, { value: 1 }, { value: "1", unit: "lb" }, [[[[]]]]];
const damage = fc.record({ at: fc.nat(), how: fc.nat(4), what: fc.constantFrom(...hostile) });
function damaged(body, { at, how, what }) {
  const copy = structuredClone(body);
  const places = [];
  const walk = (node) => {
    if (node === null || typeof node !== "object") return;
    for (const key of Object.keys(node)) {
      places.push([node, key]);
      walk(node[key]);
    }
  };
  walk(copy);
  if (places.length === 0) return what;
  const [node, key] = places[at % places.length];
  if (how === 0) Array.isArray(node) ? node.splice(Number(key), 1) : delete node[key];
  else if (how === 1) node[key] = what;
  else if (how === 2) node[Array.isArray(node) ? node.length : `${key}_`] = what;
  else if (how === 3) node[key] = [node[key]];
  else if (typeof node[key] === "number") node[key] = node[key] * -1e6 - 1;
  else node[key] = what;
  return copy;
}

// What a body that keeps the schema may still be refused for: facts that do not fit together and rings
// that are no polygons; and, where it was damaged, a range that the schema states in words.
const meaning = new Set(["conflict", "bad_geometry", "missing_member", "wrong_format"]);
const tally = { accepted: 0, refused: 0, invalid: 0 };

async function ask(path, operation, body, wasDamaged = false) {
  const answer = await fetch(base + path, {
    method: "POST", headers: { "Content-Type": "application/json", Accept: "application/json" }, body: JSON.stringify(body),
  });
  const text = await answer.text();
  const where = `/paths/${path.replaceAll("/", "~1")}/post`;
  const keeps = validator(null, `${where}/requestBody/content/application~1json/schema`)(body);
  const promised = operation.responses[String(answer.status)];
  if (answer.status >= 500 || !promised) throw new Error(`${path}: status ${answer.status}: ${text.slice(0, 400)}`);
  const value = JSON.parse(text);
  const sound = answer.status === 200
    ? validator(null, `${where}/responses/200/content/application~1json/schema`)
    : validator(null, "/components/schemas/Problem");
  if (!sound(value)) throw new Error(`${path}: the answer breaks the contract: ${ajv.errorsText(sound.errors)}`);
  if (!keeps) {
    tally.invalid++;
    if (answer.status === 200) throw new Error(`${path}: a body that breaks the contract was accepted`);
    return;
  }
  if (answer.status === 200) {
    tally.accepted++;
    return;
  }
  tally.refused++;
  const shape = value.faults.filter((f) => !meaning.has(f.code) && !(wasDamaged && f.code === "out_of_range"));
  if (shape.length) throw new Error(`${path}: a body that keeps the contract was refused for its shape: ${JSON.stringify(shape)}`);
}

let operations = 0;
for (const [path, methods] of Object.entries(contract.paths)) {
  const operation = methods.post;
  const schema = operation?.requestBody?.content?.["application/json"]?.schema;
  if (!schema) continue;
  operations++;
  // A good example of the contract is a better start for damage than a random body, which has many faults already.
  const examples = Object.values(operation.requestBody.content["application/json"].examples ?? {}).map((e) => resolve(e).value);
  const start = fc.oneof({ weight: 1, arbitrary: generate(schema) }, { weight: 2, arbitrary: fc.constantFrom(...examples) });
  const renewal = fc.constantFrom(...examples).chain((example) => renewed(schema, example));
  const options = { numRuns: Number(runs), seed: Number(seed), endOnFailure: false };
  await fc.assert(fc.asyncProperty(generate(schema), (body) => ask(path, operation, body)), options);
  await fc.assert(fc.asyncProperty(renewal, (body) => ask(path, operation, body)), options);
  await fc.assert(fc.asyncProperty(start, fc.array(damage, { minLength: 1, maxLength: 3 }), (body, damages) =>
    ask(path, operation, damages.reduce(damaged, body), true)), options);
  await fc.assert(fc.asyncProperty(fc.jsonValue({ maxDepth: 4 }), (body) => ask(path, operation, body)), options);
}
if (operations === 0 || tally.accepted < operations || tally.invalid === 0) throw new Error(`nothing was tried: ${JSON.stringify(tally)}`);
console.log(`${operations} operations; bodies that keep the contract: ${tally.accepted} accepted, ${tally.refused} refused for their meaning; that break it: ${tally.invalid}, none accepted`);
