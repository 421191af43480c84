using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage.Dossiers;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Cli.Dossiers;

/// <summary>A dossier's numbers were computed again.</summary>
internal sealed record DossierRecomputedAnswer(
    string Title,
    bool Invented,
    int NumberCount,
    int DifferentCount
);

/// <summary>Computes a dossier's numbers again.</summary>
internal static class RecomputeVerb
{
    public static VerbCommand Make()
    {
        var file = Slot.Word("FILE", "A dossier: a zip, or a folder.");
        return new(
            "recompute",
            "Compute the numbers of a dossier again from its own entries, and say where they do not agree.",
            ["dossiers recompute club.zip"],
            [file],
            sitting => Task.FromResult(Recompute(sitting, file.Text(sitting.Parse)!))
        );
    }

    private static int Recompute(Sitting sitting, string path)
    {
        var saying = new Saying(sitting.Zone, null);
        var read = DossierFiles.Read(path, sitting.Cancellation);
        if (!read.Succeeded)
        {
            return sitting.NotUnderstood([read.Reason], saying);
        }

        var again = Recomputing.Of(read.Value);
        if (!again.Succeeded)
        {
            return sitting.Refuse([again.Reason], saying);
        }

        if (again.Value.First is { } first)
        {
            return sitting.Refuse([first], saying);
        }

        return sitting.Answer(
            new DossierRecomputedAnswer(
                read.Value.Title,
                read.Value.IsInvented,
                again.Value.Numbers,
                again.Value.Different
            ),
            CliJson.Default.DossierRecomputedAnswer,
            page =>
                page.Line($"All {again.Value.Numbers} numbers come out again, to one in a thousand million.")
        );
    }
}
