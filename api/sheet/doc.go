// Package sheet writes answers as pages that people read and print: the answer sheet of a mission,
// and the frame and the style that every other page of the service shares.
//
// A page is made of html/template files that are laid into page.html. Text and figures are escaped
// by the templates; no page holds a script, an inline style or an address outside the service.
package sheet
