package wire

import (
	"errors"
	"reflect"
	"testing"

	"github.com/go-playground/validator/v10"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typesBelow lists a struct type and every struct type in it.
func typesBelow(goType reflect.Type, seen map[reflect.Type]bool) {
	for goType.Kind() == reflect.Pointer || goType.Kind() == reflect.Slice {
		goType = goType.Elem()
	}
	if goType.Kind() != reflect.Struct || seen[goType] {
		return
	}
	seen[goType] = true
	for i := range goType.NumField() {
		typesBelow(goType.Field(i).Type, seen)
	}
}

// A bad tag panics at its first use, so every type of the wire is used once, empty and with an
// empty item in each of its lists.
func TestTagsOfEveryWireTypeAreGood(t *testing.T) {
	t.Parallel()
	seen := map[reflect.Type]bool{}
	typesBelow(reflect.TypeFor[Request](), seen)
	typesBelow(reflect.TypeFor[Answer](), seen)
	typesBelow(reflect.TypeFor[Fault](), seen)
	assert.Greater(t, len(seen), 40)
	for goType := range seen {
		require.NotPanics(t, func() {
			value := reflect.New(goType)
			check(t, value.Interface())
			for i := range goType.NumField() {
				field := value.Elem().Field(i)
				switch field.Kind() {
				case reflect.Pointer:
					field.Set(reflect.New(field.Type().Elem()))
				case reflect.Slice:
					field.Set(reflect.MakeSlice(field.Type(), 1, 1))
				}
			}
			check(t, value.Interface())
		}, goType.Name())
	}
}

func check(t *testing.T, value any) {
	t.Helper()
	err := structRules.Struct(value)
	var broken validator.ValidationErrors
	if err != nil {
		require.True(t, errors.As(err, &broken), "%T: %v", value, err)
	}
	for _, b := range broken {
		f := tagFault(b)
		assert.NotEmpty(t, f.Code)
		assert.NotEmpty(t, f.Message)
	}
}

func TestNamespacesBecomePointers(t *testing.T) {
	t.Parallel()
	for namespace, want := range map[string]string{
		"Request.units":                                     "/units",
		"Request.aircraft.battery.weight.value":             "/aircraft/battery/weight/value",
		"Request.spray_system.nozzle.spectra[2].dv05.unit":  "/spray_system/nozzle/spectra/2/dv05/unit",
		"Request.operation.holds[10]":                       "/operation/holds/10",
		"Request.field.neighbors[0].bearing":                "/field/neighbors/0/bearing",
		"Request.crew.costs.battery_cycles":                 "/crew/costs/battery_cycles",
		"Request.load.product_label.droplet_class_min":      "/load/product_label/droplet_class_min",
		"Request.field.boundary.type":                       "/field/boundary/type",
		"Request.spray_system.rotary.spectra[49].rotation":  "/spray_system/rotary/spectra/49/rotation",
		"Request.aircraft.hover_endurance.empty.value":      "/aircraft/hover_endurance/empty/value",
		"Request.spray_system.nozzle.classes[1].class":      "/spray_system/nozzle/classes/1/class",
		"Request.operation.expiries[3].date":                "/operation/expiries/3/date",
		"Request.weather.lapse.upper_temperature.unit":      "/weather/lapse/upper_temperature/unit",
		"Request.field.launch_point.coordinates":            "/field/launch_point/coordinates",
		"Request.load.product_label.restricted_entry.value": "/load/product_label/restricted_entry/value",
	} {
		assert.Equal(t, want, namespacePointer(namespace))
	}
}

func TestTooManyItems(t *testing.T) {
	t.Parallel()
	request := &Request{Operation: &Operation{Holds: make([]string, 201)}}
	for i := range request.Operation.Holds {
		request.Operation.Holds[i] = "x"
	}
	_, faults := request.Mission(TakeoffWeights)
	found := under(faults, "/operation/holds", FaultLength)
	require.Len(t, found, 1)
	assert.Equal(t, "at most 200 items", found[0].Allowed)
	assert.Nil(t, found[0].Value)
}
