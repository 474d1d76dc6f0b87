// Command contractclient asks a running service through a client that was generated from the
// contract: contractclient http://127.0.0.1:8080 MISSION.json
package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"

	"contractclient/service"
)

func main() {
	if err := run(context.Background(), os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(ctx context.Context, base, file string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	var mission service.AssessmentRequest
	if err := json.Unmarshal(text, &mission); err != nil {
		return err
	}
	client, err := service.NewClientWithResponses(base)
	if err != nil {
		return err
	}
	answer, err := client.CreateAssessmentWithResponse(ctx, mission)
	if err != nil {
		return err
	}
	if answer.JSON200 == nil || answer.JSON200.TakeoffWeight.Total.Value <= 0 {
		return fmt.Errorf("no answer: %s %s", answer.Status(), answer.Body)
	}
	rate := mission.Load.ApplicationRate
	rate.Value = -1
	mission.Load.ApplicationRate = rate
	refused, err := client.CreateAssessmentWithResponse(ctx, mission)
	if err != nil {
		return err
	}
	if refused.ApplicationproblemJSON422 == nil || refused.ApplicationproblemJSON422.Faults == nil {
		return fmt.Errorf("a rate below zero was not refused: %s %s", refused.Status(), refused.Body)
	}
	fault := (*refused.ApplicationproblemJSON422.Faults)[0]
	if fault.Pointer != "/load/application_rate/value" {
		return fmt.Errorf("the fault stands at %s", fault.Pointer)
	}
	fmt.Printf("Go client: %s; %s\n", answer.JSON200.Answer, fault.Message)
	return nil
}
