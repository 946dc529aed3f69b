// What the tests of the schemas share: what must be valid, and files spoilt on purpose that must be refused, so that a schema
// which accepts anything does not pass.
const fs = require("node:fs");
const Ajv2020 = require("ajv/dist/2020").default;

exports.schemaTest = (schemaFile) => {
  const schema = JSON.parse(fs.readFileSync(schemaFile, "utf8"));
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true }).compile(schema);
  let failures = 0;
  const fail = (message) => {
    failures += 1;
    console.error(message);
  };
  return {
    fail,
    /// `files` by name.
    accepts(files) {
      for (const [name, file] of files) {
        if (validate(file)) continue;
        for (const error of validate.errors.slice(0, 5)) fail(`${name}: ${error.instancePath} ${error.message}`);
      }
    },
    /// Each of `spoilt`, by what it does to a file, spoils a copy of `sound`.
    refuses(sound, spoilt) {
      for (const [what, spoil] of Object.entries(spoilt)) {
        const file = structuredClone(sound);
        spoil(file);
        if (validate(file)) fail(`the schema accepts ${what}`);
      }
    },
    end(what) {
      console.log(what);
      process.exit(failures === 0 ? 0 : 1);
    },
  };
};
