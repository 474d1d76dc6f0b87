// Command manifests reads Kubernetes manifests strictly into the API's own types: an unknown or
// misspelled field, a wrong type or a bad quantity is an error, and so is a mount that leads nowhere.
// Standard input holds the documents.
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"reflect"

	apps "k8s.io/api/apps/v1"
	autoscaling "k8s.io/api/autoscaling/v2"
	batch "k8s.io/api/batch/v1"
	core "k8s.io/api/core/v1"
	networking "k8s.io/api/networking/v1"
	policy "k8s.io/api/policy/v1"
	"sigs.k8s.io/yaml"
)

var kinds = map[string]func() any{
	"apps/v1 Deployment":                     func() any { return &apps.Deployment{} },
	"v1 Service":                             func() any { return &core.Service{} },
	"v1 PersistentVolumeClaim":               func() any { return &core.PersistentVolumeClaim{} },
	"autoscaling/v2 HorizontalPodAutoscaler": func() any { return &autoscaling.HorizontalPodAutoscaler{} },
	"batch/v1 Job":                           func() any { return &batch.Job{} },
	"networking.k8s.io/v1 NetworkPolicy":     func() any { return &networking.NetworkPolicy{} },
	"policy/v1 PodDisruptionBudget":          func() any { return &policy.PodDisruptionBudget{} },
}

func main() {
	text, err := io.ReadAll(os.Stdin)
	if err != nil {
		fail(err)
	}
	read := 0
	for _, document := range bytes.Split(text, []byte("\n---\n")) {
		if len(bytes.TrimSpace(document)) == 0 {
			continue
		}
		if err := check(document); err != nil {
			fail(err)
		}
		read++
	}
	if read < 7 {
		fail(fmt.Errorf("only %d manifests", read))
	}
	fmt.Printf("%d manifests are sound\n", read)
}

func check(document []byte) error {
	var kind struct{ APIVersion, Kind string }
	if err := yaml.Unmarshal(document, &kind); err != nil {
		return err
	}
	name := kind.APIVersion + " " + kind.Kind
	make, known := kinds[name]
	if !known {
		return fmt.Errorf("%s is not looked at; add its type", name)
	}
	object := make()
	if err := yaml.UnmarshalStrict(document, object); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := mounted(object); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return sameLetters(name, document, object)
}

// sameLetters finds fields in wrong letter case, which the decoder takes: what was sent must come
// back under the same names.
func sameLetters(name string, document []byte, object any) error {
	var sent, back any
	if err := yaml.Unmarshal(document, &sent); err != nil {
		return err
	}
	text, err := json.Marshal(object)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, &back); err != nil {
		return err
	}
	return within(name, sent, back)
}

func within(at string, sent, back any) error {
	switch s := sent.(type) {
	case map[string]any:
		b, _ := back.(map[string]any)
		for key, value := range s {
			found, ok := b[key]
			if !ok && !reflect.ValueOf(value).IsZero() && !empty(value) {
				return fmt.Errorf("%s/%s is not a field", at, key)
			}
			if ok {
				if err := within(at+"/"+key, value, found); err != nil {
					return err
				}
			}
		}
	case []any:
		b, _ := back.([]any)
		for i, value := range s {
			if i < len(b) {
				if err := within(fmt.Sprintf("%s/%d", at, i), value, b[i]); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func empty(value any) bool {
	v := reflect.ValueOf(value)
	return (v.Kind() == reflect.Slice || v.Kind() == reflect.Map) && v.Len() == 0
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}
