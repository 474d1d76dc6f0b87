package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	apps "k8s.io/api/apps/v1"
	batch "k8s.io/api/batch/v1"
	core "k8s.io/api/core/v1"
)

// podOf is the pod that an object makes; nil where it makes none.
func podOf(object any) *core.PodSpec {
	switch o := object.(type) {
	case *apps.Deployment:
		return &o.Spec.Template.Spec
	case *batch.Job:
		return &o.Spec.Template.Spec
	}
	return nil
}

// mounted finds volumes that are mounted nowhere, mounts of no volume, and settings that name a file
// where nothing is mounted: the root of the container is empty.
func mounted(object any) error {
	pod := podOf(object)
	if pod == nil {
		return nil
	}
	var errs []error
	used := map[string]bool{}
	for _, c := range pod.Containers {
		for _, m := range c.VolumeMounts {
			used[m.Name] = true
			if !slices.ContainsFunc(pod.Volumes, func(v core.Volume) bool { return v.Name == m.Name }) {
				errs = append(errs, fmt.Errorf("%s mounts %s, which is no volume", c.Name, m.Name))
			}
		}
		for _, e := range c.Env {
			under := func(m core.VolumeMount) bool { return strings.HasPrefix(e.Value, m.MountPath+"/") }
			if strings.HasSuffix(e.Name, "_FILE") && !slices.ContainsFunc(c.VolumeMounts, under) {
				errs = append(errs, fmt.Errorf("%s is %s, where nothing is mounted", e.Name, e.Value))
			}
		}
	}
	for _, v := range pod.Volumes {
		if !used[v.Name] {
			errs = append(errs, fmt.Errorf("the volume %s is mounted nowhere", v.Name))
		}
	}
	return errors.Join(errs...)
}
