using System.Collections.Immutable;
using System.Text.Json;

namespace Broodtide.Workbench.Species;

/// <summary>Text to profile, stopping at the first fault. Total: no text makes it throw.</summary>
internal static class ProfileReader
{
    /// <summary>The version of the format this reader knows.</summary>
    internal const int Format = 1;

    internal static ProfileReading Read(ReadOnlySpan<byte> utf8)
    {
        ReadOnlySpan<byte> mark = [0xEF, 0xBB, 0xBF];
        ProfileFile? file;
        try
        {
            file = JsonSerializer.Deserialize(
                utf8.StartsWith(mark) ? utf8[mark.Length..] : utf8,
                ProfileJson.Default.ProfileFile
            );
        }
        catch (JsonException fault)
        {
            return No(new(ProfileFaultCodes.NotUnderstood, fault.Path ?? "$", "", [], fault.LineNumber + 1));
        }

        var check = new ProfileCheck();
        var profile = file is null ? null : Build(file, check);
        return check.Fault is { } first ? No(first)
            : profile is null ? No(new(ProfileFaultCodes.Missing, "$", "", ["{"]))
            : new(profile, null);
    }

    private static SpeciesProfile? Build(ProfileFile file, ProfileCheck check)
    {
        if (file.Format != Format)
        {
            check.Say(ProfileFaultCodes.NotAllowed, "$.format", $"{file.Format}", $"{Format}");
            return null;
        }

        var code = check.Code(file.Code, "$.code");
        var name = check.Text(file.ScientificName, "$.scientificName");
        var quantities = ProfileQuantityReader.Read(check, file.Quantities);
        var facts = check.Rows(file.Facts, "$.facts", (row, at) => Fact(check, row, at));
        check.Unique(facts.Select(fact => fact.Code), "$.facts");
        var stages = Stages(check, file.Stages);
        return check.Fault is null ? new(code, name, quantities, facts, stages, []) : null;
    }

    private static ProfileFact Fact(ProfileCheck check, FactRow row, string at)
    {
        var provenance = check.Provenance(row.Provenance, at);
        return new(
            check.Code(row.Code, $"{at}.code"),
            check.Code(row.Is, $"{at}.is"),
            check.Text(row.Meaning, $"{at}.meaning"),
            provenance,
            check.BorrowedFrom(provenance, row.BorrowedFrom, at),
            check.Text(row.Source, $"{at}.source"),
            check.TextOrNone(row.Note, $"{at}.note")
        );
    }

    private static ImmutableArray<ProfileStage> Stages(ProfileCheck check, StageRow?[]? rows)
    {
        var stages = check.Rows(rows, "$.stages", (row, at) => Stage(check, row, at));
        check.Unique(stages.Select(stage => stage.Code), "$.stages");
        for (var i = 0; i < stages.Length; i++)
        {
            if (stages[i].Order != i + 1)
            {
                check.Say(
                    ProfileFaultCodes.NotAscending,
                    $"$.stages[{i}].order",
                    $"{stages[i].Order}",
                    $"{i + 1}"
                );
            }
        }

        return stages;
    }

    private static ProfileStage Stage(ProfileCheck check, StageRow row, string at) =>
        new(
            check.Text(row.Code, $"{at}.code"),
            row.Order ?? check.Missing($"{at}.order", 0),
            check.Rows(row.Signs, $"{at}.signs", (sign, place) => Sign(check, sign, place), mayBeEmpty: true)
        );

    private static StageSign Sign(ProfileCheck check, SignRow row, string at)
    {
        if (row.Count < 0)
        {
            check.Say(ProfileFaultCodes.NotAllowed, $"{at}.count", $"{row.Count}", "0 or more");
        }

        return new(
            check.Code(row.Code, $"{at}.code"),
            row.Count,
            check.Word(row.When, $"{at}.when", ProfileWords.Timings),
            check.Provenance(row.Provenance, at),
            check.Text(row.Source, $"{at}.source")
        );
    }

    private static ProfileReading No(ProfileFault fault) => new(null, fault);
}
