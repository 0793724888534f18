// Says of each statement of the JSON array on the standard input what a record store's validator has against it: one
// line of JSON for each, a list of its problems.
const validate = require("@learninglocker/xapi-validation").default;

const statements = JSON.parse(require("fs").readFileSync(0, "utf8"));
for (const statement of statements) {
  console.log(JSON.stringify(validate(statement).map(({ name, path }) => `${name} at ${path.join(".")}`)));
}
