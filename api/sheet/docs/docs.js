// Shows the contract of this service in the viewer. Nothing outside this service is asked.
"use strict";
SwaggerUIBundle({
  url: "/openapi.json",
  dom_id: "#viewer",
  deepLinking: true,
  validatorUrl: null,
  queryConfigEnabled: false,
  docExpansion: "list",
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  supportedSubmitMethods: ["get", "post"],
  presets: [SwaggerUIBundle.presets.apis],
  layout: "BaseLayout",
});
