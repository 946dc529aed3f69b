"use strict";
loadInlinedTool().then(
  (tool) => { document.getElementById("state").textContent = tool.run(["--version"], {}).out; },
  (error) => { document.getElementById("state").textContent = `This browser cannot run insideline: ${error.message}`; });
