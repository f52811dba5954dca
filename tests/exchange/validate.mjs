// What `flinch share` and `flinch signs --questionnaire` write, read by libraries that others wrote: HL7's
// JSON schema of R4 (fhir-json-schema-validator, with ajv), the structure definitions and value sets of R4 and
// conversion to XML and back (fhir), FHIRPath with its model of R4 (fhirpath), and UCUM (@lhncbc/ucum-lhc). The
// invariants below are the standard's own expressions, each with its name in https://hl7.org/fhir/R4.
// Documents broken on purpose must be found out, or the check sees nothing.
// Usage: node validate.mjs NODE_MODULES PROGRAM KEY-FILE CASE...
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import path from "node:path";

const [modules, program, key, ...cases] = process.argv.slice(2).map((one) => path.resolve(one));
const require = createRequire(path.join(modules, "here.js"));
const Schema = require("@asymmetrik/fhir-json-schema-validator");
const { Fhir } = require("fhir");
const fhirpath = require("fhirpath");
const r4 = require("fhirpath/fhir-context/r4");
const { UcumLhcUtils } = require("@lhncbc/ucum-lhc");

const schema = new Schema();
const fhir = new Fhir();
const ucum = UcumLhcUtils.getInstance();
const run = (...args) =>
  execFileSync(program, args, { encoding: "utf8", maxBuffer: 1 << 28, env: { ...process.env, SOURCE_DATE_EPOCH: "1764000000" } });
const path_of = (resource, expression) => fhirpath.evaluate(resource, expression, undefined, r4);

// By the published JSON schema. A Bundle's entries are any resource there, so each is asked for by itself too.
function schemaFaults(resource) {
  const faults = (one) => {
    const found = schema.validate(one, true);
    return found && found.length ? [`${one.resourceType}: ${JSON.stringify(found[0])}`] : [];
  };
  return [...faults(resource), ...(resource.entry ?? []).flatMap((entry) => faults(entry.resource))];
}

// By the structure definitions and their bound value sets.
function structureFaults(resource) {
  const faults = (one) =>
    fhir.validate(one, { errorOnUnexpected: true }).messages
      .filter((message) => message.severity === "error" || message.severity === "fatal")
      .map((message) => `${one.resourceType} ${message.location}: ${message.message}`);
  return resource.resourceType === "Bundle"
    ? [...faults({ ...resource, entry: [] }), ...resource.entry.flatMap((entry) => faults(entry.resource))]
    : faults(resource);
}

// Invariants of R4: [name, of what, must be true].
const invariants = [
  ["bdl-7", "Bundle", "entry.where(fullUrl.exists()).select(fullUrl).isDistinct()"],
  ["bdl-5", "Bundle.entry", "resource.exists() or request.exists() or response.exists()"],
  ["bdl-8", "Bundle.entry", "fullUrl.contains('/_history/').not()"],
  ["pat-1", "Patient.contact", "name.exists() or telecom.exists() or address.exists() or organization.exists()"],
  ["ras-2", "RiskAssessment.prediction.where(probability.exists())", "probability <= 100"],
  ["cpl-3", "CarePlan.activity", "detail.empty() or reference.empty()"],
  ["per-1", "ServiceRequest.occurrence.ofType(Period)", "start.hasValue().not() or end.hasValue().not() or (start <= end)"],
  ["qrs-1", "QuestionnaireResponse.descendants().where(linkId.exists())", "(answer.exists() and item.exists()).not()"],
  ["qty-3", "QuestionnaireResponse.descendants().where(code.exists() and value.exists())", "code.empty() or system.exists()"],
  ["que-0", "Questionnaire", "name.matches('[A-Z]([A-Za-z0-9_]){0,254}')"],
  ["que-2", "Questionnaire", "descendants().linkId.isDistinct()"],
  ["que-1", "Questionnaire.descendants().where(linkId.exists() and type.exists())",
    "(type='group' implies item.empty().not()) and (type='display' implies item.empty())"],
  ["que-3", "Questionnaire.descendants().where(linkId.exists() and type = 'display')", "code.empty()"],
  ["que-4", "Questionnaire.descendants().where(linkId.exists() and type.exists())", "answerOption.empty() or answerValueSet.empty()"],
  ["que-5", "Questionnaire.descendants().where(answerOption.exists())", "type ='choice' or type = 'open-choice'"],
  ["que-6", "Questionnaire.descendants().where(linkId.exists() and type = 'display')", "required.empty() and repeats.empty()"],
  ["que-7", "Questionnaire.descendants().where(operator.exists())", "operator = 'exists' implies (answer is Boolean)"],
  ["que-12", "Questionnaire.descendants().where(linkId.exists() and enableWhen.count() > 1)", "enableBehavior.exists()"],
];
function invariantFaults(resource) {
  const all = resource.resourceType === "Bundle" ? [resource, ...resource.entry.map((entry) => entry.resource)] : [resource];
  return all.flatMap((one) => invariants.flatMap(([name, of, rule]) => {
    if (of.split(".")[0] !== one.resourceType) return [];
    return path_of(one, `${of}.all(${rule})`)[0] === false ? [`${name}: ${rule}`] : [];
  }));
}

// What no schema says of a Bundle: references lead to an entry, ids are those of their addresses.
function referenceFaults(bundle) {
  const there = new Set(path_of(bundle, "Bundle.entry.fullUrl"));
  const faults = path_of(bundle, "Bundle.descendants().reference").filter((one) => !there.has(one)).map((one) => `no ${one}`);
  for (const entry of bundle.entry)
    if (entry.fullUrl !== `urn:uuid:${entry.resource.id}`) faults.push(`${entry.fullUrl} is ${entry.resource.id}`);
  return faults;
}

// A response against its form: the items that the form has, in its groups, and answers that are its options.
function responseFaults(response, form) {
  const items = new Map();
  (function gather(of, parent) {
    for (const item of of.item ?? []) { items.set(item.linkId, { item, parent }); gather(item, item.linkId); }
  })(form, undefined);
  const faults = [];
  (function look(of, parent) {
    for (const one of of.item ?? []) {
      const { item, parent: group } = items.get(one.linkId) ?? {};
      if (!item) { faults.push(`no item ${one.linkId}`); continue; }
      if (group !== parent) faults.push(`${one.linkId} stands below ${parent}`);
      if ((one.answer ?? []).length > 1 && !item.repeats) faults.push(`${one.linkId} has several answers`);
      for (const answer of one.answer ?? []) {
        if (item.type === "choice" && !item.answerOption.some((option) =>
          option.valueCoding.system === answer.valueCoding?.system && option.valueCoding.code === answer.valueCoding?.code))
          faults.push(`${one.linkId}: ${JSON.stringify(answer)} is no option`);
        const [type] = Object.keys(answer);
        const isAbsent = type === "extension" && /data-absent-reason$/.test(answer.extension[0].url) &&
          ["quantity", "decimal"].includes(item.type);
        const wanted = { choice: "valueCoding", quantity: "valueQuantity", decimal: "valueDecimal", string: "valueString" };
        if (!isAbsent && type !== wanted[item.type]) faults.push(`${one.linkId}: ${type}`);
      }
      look(one, one.linkId);
    }
  })(response, undefined);
  return faults;
}

// Units are UCUM's, and convert as it says.
function unitFaults(resource) {
  return path_of(resource, "descendants().where(system = 'http://unitsofmeasure.org').code")
    .filter((code) => ucum.validateUnitString(code).status !== "valid").map((code) => `no unit ${code}`);
}

const form = JSON.parse(run("signs", "--questionnaire"));
const formFaults = (bundle) =>
  responseFaults(bundle.entry.find((entry) => entry.resource.resourceType === "QuestionnaireResponse").resource, form);
// A library that gives up on a document has found a fault in it, too.
const allFaults = (resource) =>
  [schemaFaults, structureFaults, invariantFaults, unitFaults,
   ...(resource.resourceType === "Bundle" ? [referenceFaults, formFaults] : [])].flatMap((check) => {
    try { return check(resource); } catch (error) { return [`${check.name}: ${error}`]; }
  });

assert.deepEqual(allFaults(form), []);
assert.ok(path_of(form, "Questionnaire.descendants().where(type = 'choice').count()")[0] > 300);

let last;
let predictions = 0;
for (const file of cases)
  for (const names of [[], ["--with-names"]]) {
    const text = run("share", file, "--key", key, ...names);
    const bundle = JSON.parse(text);
    assert.deepEqual(allFaults(bundle), [], file);
    // Walked by its model: one patient, and all that is about it says so.
    assert.deepEqual(path_of(bundle, "Bundle.entry.resource.ofType(Patient).count()"), [1]);
    const patient = path_of(bundle, "Bundle.entry.resource.ofType(Patient).identifier.value")[0];
    assert.ok(path_of(bundle, "Bundle.entry.resource.subject.reference").every((one) => one === patient));
    const chances = path_of(bundle, "Bundle.entry.resource.ofType(RiskAssessment).prediction.probability");
    assert.ok(chances.every((one) => one >= 0 && one <= 100));
    predictions += chances.length;
    // To XML and back by a library: nothing is lost, the order of members aside.
    for (const { resource } of bundle.entry) assert.deepEqual(JSON.parse(fhir.xmlToJson(fhir.objToXml(resource))), resource);
    if (chances.length && path_of(bundle, "Bundle.entry.resource.ofType(ServiceRequest)").length) last = bundle;
    // A reader of ours takes what theirs wrote out of its XML.
    const again = { ...bundle, entry: bundle.entry.map((entry) => ({ ...entry, resource: JSON.parse(fhir.xmlToJson(fhir.objToXml(entry.resource))) })) };
    const direct = spawnSync(program, ["take", "-"], { input: text, encoding: "utf8" });
    const around = spawnSync(program, ["take", "-"], { input: JSON.stringify(again), encoding: "utf8" });
    assert.equal(direct.status, 0, direct.stderr);
    assert.equal(around.stdout, direct.stdout);
  }
assert.ok(predictions > 10);

// Our units are UCUM's, number for number.
for (const [amount, from, to, wanted] of [[1, "[lb_av]", "kg", 0.45359237], [16, "[oz_av]", "kg", 0.45359237],
  [104, "[degF]", "Cel", 40], [1, "a", "d", 365.25], [12, "mo", "a", 1], [1, "wk", "d", 7], [1, "cm", "mm", 10]]) {
  const converted = ucum.convertUnitTo(from, amount, to);
  assert.equal(converted.status, "succeeded");
  assert.ok(Math.abs(converted.toVal - wanted) < 1e-9 * wanted, `${amount} ${from}: ${converted.toVal} ${to}`);
}

// Broken on purpose: each must be found.
const piece = (bundle, type) => bundle.entry.find((entry) => entry.resource.resourceType === type).resource;
const breaks = {
  "an element of the wrong type": (b) => { piece(b, "Patient").gender = 5; },
  "a gender that there is not": (b) => { piece(b, "Patient").gender = "dog"; },
  "an element that there is not": (b) => { piece(b, "Patient").colour = "brown"; },
  "no status": (b) => { delete piece(b, "QuestionnaireResponse").status; },
  "a priority that there is not": (b) => { piece(b, "ServiceRequest").priority = "soonish"; },
  "no intent": (b) => { delete piece(b, "CarePlan").intent; },
  "more than 100 per cent": (b) => { piece(b, "RiskAssessment").prediction[0].probabilityDecimal = 101; },
  "a chance as a text": (b) => { piece(b, "RiskAssessment").prediction[0].probabilityDecimal = "50"; },
  "a reference to nothing": (b) => { piece(b, "CarePlan").subject.reference = "urn:uuid:00000000-0000-4000-8000-00000000000e"; },
  "an id that is another": (b) => { b.entry[1].resource.id = "x"; },
  "a time that is none": (b) => { b.timestamp = "yesterday"; },
  "a period that ends before it begins": (b) => { piece(b, "ServiceRequest").occurrencePeriod.end = "2000-01-01T00:00:00Z"; },
  "two entries of one address": (b) => { b.entry.push(b.entry[0]); },
  "an answer that is no option": (b) => { piece(b, "QuestionnaireResponse").item.at(-1).item[0].answer = [{ valueCoding: { system: "urn:x", code: "Y" } }]; },
  "an item that the form does not have": (b) => { piece(b, "QuestionnaireResponse").item.at(-1).item[0].linkId = "nothing"; },
  "items below an answered question": (b) => { const item = piece(b, "QuestionnaireResponse").item.at(-1).item[0]; item.item = [{ linkId: "x" }]; },
  "an agent without a name": (b) => { delete piece(b, "Provenance").agent[0].who; },
};
for (const [what, damage] of Object.entries(breaks)) {
  const broken = structuredClone(last);
  damage(broken);
  assert.notDeepEqual(allFaults(broken), [], `not found out: ${what}`);
}
const formBreaks = {
  "a type that there is not": (q) => { q.item[0].item[0].type = "colour"; },
  "a link twice": (q) => { q.item[0].item[1].linkId = q.item[0].item[0].linkId; },
  "an empty group": (q) => { delete q.item[0].item; },
  "two conditions and no behaviour": (q) => { const one = q.item[2].item.find((item) => item.enableWhen?.length > 1); delete one.enableBehavior; },
  "a name with blanks": (q) => { q.name = "not a name"; },
  "a unit that there is not": (q) => { q.item[0].item[0].extension[0].valueCoding.code = "dogyears"; },
};
for (const [what, damage] of Object.entries(formBreaks)) {
  const broken = structuredClone(form);
  damage(broken);
  assert.notDeepEqual(allFaults(broken), [], `not found out: ${what}`);
}
console.log(`${2 * cases.length} Bundles and the form are sound; ${Object.keys(breaks).length + Object.keys(formBreaks).length} broken ones were found out`);
