// Shows the contract of this service in the viewer. Nothing outside this service is asked.
"use strict";
SwaggerUIBundle({
  url: "/openapi.json",
  dom_id: "#viewer",
  deepLinking: false,
  validatorUrl: null,
  queryConfigEnabled: false,
  docExpansion: "list",
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  supportedSubmitMethods: ["get", "post"],
  presets: [SwaggerUIBundle.presets.apis],
  layout: "BaseLayout",
  onComplete: nameInputs,
});

// The viewer leaves its list of servers without a name that a screen reader could say.
function nameInputs() {
  for (const select of document.querySelectorAll("#viewer select:not([aria-label])")) {
    select.setAttribute("aria-label", "Server");
  }
}
