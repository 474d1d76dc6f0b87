// A typed client, generated from the contract, against the live service.
import { readFileSync } from "node:fs";
import createClient from "openapi-fetch";
import type { components, paths } from "./schema.js";

const [base, missionFile] = process.argv.slice(2) as [string, string];
const client = createClient<paths>({ baseUrl: base });
type Mission = components["schemas"]["AssessmentRequest"];
const mission = JSON.parse(readFileSync(missionFile, "utf8")) as Mission;

const { data, error } = await client.POST("/v1/assessments", { body: mission });
if (error || !data || typeof data === "string" || !("takeoff_weight" in data)) throw new Error(`refused: ${JSON.stringify(error)}`);
const verdicts: (typeof data.answer)[] = ["yes", "yes_if", "no"];
if (!verdicts.includes(data.answer)) throw new Error(`no verdict: ${data.answer}`);
const total: number = data.takeoff_weight.total.value;
if (!(total > 0)) throw new Error("the takeoff weight has no figure");

const heavy: Mission = { ...mission, load: { ...mission.load, application_rate: { value: -1, unit: "gal/ac" } } };
const refused = await client.POST("/v1/assessments", { body: heavy });
const fault = refused.error && "faults" in refused.error ? refused.error.faults?.[0] : undefined;
if (refused.response.status !== 422 || fault?.pointer !== "/load/application_rate/value") {
  throw new Error(`a rate below zero was not refused where it stands: ${JSON.stringify(refused.error)}`);
}
console.log(`TypeScript client: ${data.answer}; ${fault.message}`);
