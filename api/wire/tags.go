package wire

import (
	"errors"
	"reflect"
	"strings"

	"github.com/go-playground/validator/v10"
)

// structRules checks the validation tags: the second lock behind the schema of the contract, for
// requests that did not come over HTTP. It is built once and only read afterwards.
var structRules = newStructRules()

func newStructRules() *validator.Validate {
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(func(field reflect.StructField) string {
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		return name
	})
	return v
}

// tags notes every broken rule of a single struct.
func (m *mapper) tags(r *Request) {
	var broken validator.ValidationErrors
	if err := structRules.Struct(r); !errors.As(err, &broken) {
		return
	}
	for _, b := range broken {
		m.add(tagFault(b))
	}
}

// tagFault says a broken rule as a fault.
func tagFault(b validator.FieldError) Fault {
	f := Fault{Pointer: namespacePointer(b.Namespace()), Value: sentValue(b.Value())}
	name := b.Field()
	switch b.Tag() {
	case "required", "required_with":
		f.Code, f.Value = FaultMissing, nil
		f.Message = name + " is missing. Send it."
	case "oneof":
		f.Code, f.Allowed = FaultEnum, strings.ReplaceAll(b.Param(), " ", ", ")
		f.Message = name + " is not in the list. Send one of: " + f.Allowed + "."
	case "alpha", "uppercase", "len":
		f.Code, f.Allowed = FaultFormat, "two capital letters, such as TX"
		f.Message = name + " must be " + f.Allowed + "."
	case "min", "max":
		f.Code, f.Allowed = boundFault(b)
		f.Message = name + " must have " + f.Allowed + "."
	default:
		f.Code = FaultFormat
		f.Message = name + " does not have the form the contract asks for."
	}
	return f
}

// boundFault tells a bound on a number from one on a length.
func boundFault(b validator.FieldError) (FaultCode, string) {
	side := map[string]string{"min": "at least ", "max": "at most "}[b.Tag()]
	switch b.Kind() {
	case reflect.Slice:
		return FaultLength, side + counted(b.Param(), "item")
	case reflect.String:
		return FaultLength, side + counted(b.Param(), "character")
	default:
		return FaultRange, "a value of " + side + b.Param()
	}
}

// namespacePointer turns the path of the validator, such as Request.nozzle.spectra[2].dv05, into a
// JSON pointer. Our names hold no dots, brackets, slashes or tildes, so nothing needs escaping.
func namespacePointer(namespace string) string {
	_, path, _ := strings.Cut(namespace, ".")
	return "/" + strings.NewReplacer(".", "/", "[", "/", "]", "").Replace(path)
}

// sentValue is what a fault repeats of a value: scalars, texts clipped, nothing of lists and objects.
func sentValue(value any) any {
	v := reflect.ValueOf(value)
	for v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil
		}
		v = v.Elem()
	}
	switch v.Kind() {
	case reflect.String:
		return clip(v.String())
	case reflect.Bool:
		return v.Bool()
	case reflect.Int:
		return v.Int()
	case reflect.Float64:
		return finite(v.Float())
	default:
		return nil
	}
}
