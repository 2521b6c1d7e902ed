// Ticks of the phone page, through prints of the same week: `node phone_ticks.mjs PAGE PROFILE [FOOD ...]` opens the page in a browser that
// keeps its storage in PROFILE, ticks these foods, and says which are ticked then, one a line. For tests/browser.rs; installs as
// phone_check.mjs does.

import { createRequire } from "node:module";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const { chromium } = createRequire(resolve("target/browser/here.js"))("playwright-core");

const [file, profile, ...foods] = process.argv.slice(2);
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
const context = await chromium.launchPersistentContext(profile, { executablePath: process.env.SPENCE_BROWSER || "/usr/bin/chromium", args: flags });
const page = context.pages()[0] || await context.newPage();
await page.goto(pathToFileURL(resolve(file)).href);
for (const food of foods) await page.locator(`.line[data-food="${food}"] .tick input`).check();
const ticked = await page.evaluate(() => [...document.querySelectorAll(".line")].filter(line => line.querySelector(".tick input").checked).map(line => line.dataset.food));
console.log(ticked.join("\n"));
await context.close();
