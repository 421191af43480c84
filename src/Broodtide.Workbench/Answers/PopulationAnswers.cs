using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Population;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Answers;

/// <summary>How many larvae are alive, for machines.</summary>
internal static class PopulationAnswers
{
    internal static void Write(Utf8JsonWriter json, Outlook outlook)
    {
        json.WriteStartArray("populations");
        foreach (var population in outlook.Populations)
        {
            Write(json, population, outlook.EstimateOf(population));
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, LarvalPopulation population, PopulationEstimate estimate)
    {
        json.WriteStartObject();
        json.WriteStartArray("broods");
        foreach (var brood in population.Broods)
        {
            json.WriteStringValue(brood.Value);
        }

        json.WriteEndArray();
        json.WriteString("now", UtcText.Format(estimate.Now));
        Whole(json, "aliveLarvae", estimate.All.Alive);
        Write(json, "survivedShare", estimate.SurvivedShare);
        Parts(json, "vessels", "vessel", estimate.Vessels, vessel => vessel.Value);
        Parts(json, "cohorts", "cohort", estimate.Cohorts, cohort => cohort.Value);
        json.WriteStartArray("stages");
        foreach (var stage in estimate.Stages)
        {
            json.WriteStartObject();
            json.WriteString("stage", stage.Stage);
            Whole(json, "larvae", stage.Number);
            json.WriteNumber("share", stage.Share);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartObject("settlement");
        Write(json, "first", estimate.Settlement.First);
        Write(json, "tenth", estimate.Settlement.Tenth);
        Write(json, "half", estimate.Settlement.Half);
        Write(json, "nineTenths", estimate.Settlement.NineTenths);
        json.WriteEndObject();
        Whole(json, "juveniles", estimate.Juveniles);
        json.WriteString("juvenilesOn", UtcText.Format(estimate.JuvenilesOn));
        json.WriteBoolean("rough", estimate.IsRough);
        json.WriteStartArray("whatHelps");
        foreach (var help in estimate.WhatHelps)
        {
            json.WriteStartObject();
            json.WriteString("look", JsonNamingPolicy.KebabCaseLower.ConvertName(help.Kind.ToString()));
            json.WriteNumber("aliveNarrowedShare", help.AliveNarrowedShare);
            json.WriteNumber("settlementNarrowedShare", help.SettlementNarrowedShare);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Codes(json, "conflicts", estimate.Conflicts);
        Codes(json, "remarks", estimate.Remarks);
        json.WriteStartArray("track");
        foreach (var point in estimate.Track)
        {
            json.WriteStartObject();
            json.WriteString("at", UtcText.Format(point.At));
            Whole(json, "aliveLarvae", point.Alive);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Parts<TId>(
        Utf8JsonWriter json,
        string name,
        string part,
        IReadOnlyList<AlivePart<TId>> parts,
        Func<TId, Guid> idOf
    )
    {
        json.WriteStartArray(name);
        foreach (var one in parts)
        {
            json.WriteStartObject();
            json.WriteString(part, idOf(one.Id));
            Whole(json, "aliveLarvae", one.Now.Alive);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Codes(Utf8JsonWriter json, string name, IReadOnlyList<Units.Remark> remarks)
    {
        json.WriteStartArray(name);
        foreach (var remark in remarks)
        {
            json.WriteStringValue(remark.Code);
        }

        json.WriteEndArray();
    }

    // Nobody has half a larva.
    private static void Whole(Utf8JsonWriter json, string name, Interval number) =>
        Write(
            json,
            name,
            Interval.FromPoints(Math.Round(number.Low), Math.Round(number.Middle), Math.Round(number.High))
        );

    private static void Write(Utf8JsonWriter json, string name, Interval interval)
    {
        json.WriteStartArray(name);
        json.WriteNumberValue(interval.Low);
        json.WriteNumberValue(interval.Middle);
        json.WriteNumberValue(interval.High);
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, string name, InstantRange range)
    {
        json.WriteStartArray(name);
        foreach (var instant in (ReadOnlySpan<Instant>)[range.Early, range.Middle, range.Late])
        {
            json.WriteStringValue(UtcText.Format(instant));
        }

        json.WriteEndArray();
    }
}
