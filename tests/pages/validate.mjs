// Validates pages: markup by html-validate, accessibility by axe-core in headless Chromium; looked at in
// phone and desktop width. Nothing may be fetched, nothing may run, the policy may not be broken, nothing may
// stick out of the screen.
// Usage: node validate.mjs NODE_MODULES CHROMIUM [--shots FOLDER] PAGE-OR-FOLDER...
import { createRequire } from "node:module";
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, chromium, ...rest] = process.argv.slice(2);
const shots = rest[0] === "--shots" ? rest.splice(0, 2)[1] : null;
const pages = rest.flatMap((one) =>
  fs.statSync(one).isDirectory()
    ? fs.readdirSync(one).filter((name) => name.endsWith(".html")).map((name) => path.join(one, name))
    : [one]);
const require = createRequire(path.join(path.resolve(modules), "here.js"));
const { HtmlValidate } = require("html-validate");
const puppeteer = require("puppeteer-core");
const axe = require.resolve("axe-core/axe.min.js");

const faults = [];
// Void elements and doctype are written as HTML5 allows; the rest is what is recommended.
const validator = new HtmlValidate({
  extends: ["html-validate:recommended", "html-validate:a11y"],
  rules: { "long-title": "off", "no-trailing-whitespace": "off" },
});

for (const page of pages) {
  const report = await validator.validateFile(page);
  for (const result of report.results)
    for (const message of result.messages)
      faults.push(`${page}:${message.line}:${message.column}: ${message.ruleId}: ${message.message}`);
}

const browser = await puppeteer.launch({
  executablePath: chromium,
  args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"],
});
let looked = 0;
for (const file of pages) {
  const url = pathToFileURL(path.resolve(file)).href;
  for (const [name, width, height] of [["phone", 390, 844], ["desktop", 1280, 900]]) {
    const page = await browser.newPage();
    await page.setViewport({ width, height });
    page.on("request", (request) => {
      if (request.url() !== url) faults.push(`${file}: asks for ${request.url()}`);
    });
    page.on("console", (message) => faults.push(`${file}: the browser says: ${message.text()}`));
    page.on("dialog", (dialog) => {
      faults.push(`${file}: a dialog opens: ${dialog.message()}`);
      dialog.dismiss();
    });
    await page.goto(url);
    const facts = await page.evaluate(() => ({
      wide: document.documentElement.scrollWidth - window.innerWidth,
      styled: getComputedStyle(document.body).maxWidth,
      scripts: document.scripts.length,
      handlers: [...document.querySelectorAll("*")].filter((e) =>
        [...e.attributes].some((a) => a.name.startsWith("on") || a.name === "style")).length,
      strange: document.querySelectorAll("img, iframe, object, embed, form, b, marquee, base").length,
    }));
    if (facts.wide > 0) faults.push(`${file}: ${facts.wide} pixels too wide at ${width}`);
    if (facts.styled === "none") faults.push(`${file}: the style sheet does not match the policy`);
    for (const count of ["scripts", "handlers", "strange"])
      if (facts[count] > 0) faults.push(`${file}: ${facts[count]} ${count}`);
    if (shots) {
      await page.screenshot({ path: path.join(shots, `${path.basename(file)}-${name}.png`), fullPage: true });
      if (name === "desktop")
        await page.pdf({ path: path.join(shots, `${path.basename(file)}.pdf`), preferCSSPageSize: true });
    }
    await page.close();
    // What it checks depends on neither width nor paper.
    if (name === "phone" || file.includes("-letter.")) continue;
    // The checker is a script, which the policy forbids: it runs in a page whose policy is put aside.
    const checked = await browser.newPage();
    await checked.setBypassCSP(true);
    await checked.setViewport({ width, height });
    await checked.goto(url);
    await checked.addScriptTag({ path: axe });
    const result = await checked.evaluate(() => globalThis.axe.run());
    for (const violation of result.violations)
      for (const node of violation.nodes)
        faults.push(`${file} at ${width}: ${violation.id}: ${violation.help}: ${node.html.slice(0, 160)}`);
    if (result.passes.length < 10) faults.push(`${file}: axe checked next to nothing`);
    await checked.close();
    ++looked;
  }
}
await browser.close();
console.log(faults.join("\n") || `${pages.length} pages, ${looked} of them by axe-core: nothing found`);
process.exit(faults.length || looked === 0 ? 1 : 0);
