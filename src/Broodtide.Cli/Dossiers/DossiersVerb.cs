using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage.Dossiers;
using Broodtide.Units;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Cli.Dossiers;

/// <summary>A dossier of somebody else.</summary>
internal sealed record ForeignDossierJson(
    string Id,
    string Title,
    string? By,
    string? Licence,
    bool Invented,
    string Taken,
    int RunCount,
    int EntryCount,
    long PackedBytes
);

/// <summary>The dossiers of others that are kept here.</summary>
internal sealed record DossiersAnswer(IReadOnlyList<ForeignDossierJson> Imported);

/// <summary>A dossier was taken in.</summary>
internal sealed record DossierTakenAnswer(
    string Id,
    string Title,
    string? By,
    string? Licence,
    bool Invented,
    int RunCount,
    int EntryCount,
    bool IsNew
);

/// <summary>A dossier was removed.</summary>
internal sealed record DossierRemovedAnswer(string Id, string Title);

/// <summary>The dossiers of others: taken in, listed, removed. They never mix with the journal.</summary>
internal static class DossiersVerb
{
    private const int ShortId = 12;

    public static Command Make() =>
        new("dossiers", "Dossiers of others, kept apart from your journal and never mixed into it.")
        {
            Take(),
            RecomputeVerb.Make(),
            List(),
            Remove(),
        };

    private static VerbCommand Take()
    {
        var file = Slot.Word("FILE", "A dossier: a zip, or a folder.");
        return new(
            "take",
            "Take somebody's dossier in: verified whole, or refused with a reason and nothing kept of it.",
            ["dossiers take club.zip"],
            [file],
            async sitting =>
            {
                var read = DossierFiles.Read(file.Text(sitting.Parse)!, sitting.Cancellation);
                if (!read.Succeeded)
                {
                    return sitting.NotUnderstood([read.Reason], new Saying(sitting.Zone, null));
                }

                var dossier = read.Value;
                var isNew = await DossierShelf
                    .Beside(sitting.JournalPath)
                    .PutAsync(dossier, sitting.Now, sitting.Cancellation);
                var answer = new DossierTakenAnswer(
                    dossier.Id,
                    dossier.Title,
                    dossier.By,
                    dossier.Licence,
                    dossier.IsInvented,
                    dossier.RunIds.Count,
                    dossier.Entries.Count,
                    isNew
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.DossierTakenAnswer,
                    page =>
                        page.Line(
                            isNew
                                ? $"Taken in: {Titled(answer.Title, answer.Invented)}, {answer.EntryCount} entries. It is kept apart from your journal."
                                : $"It was here already: {Titled(answer.Title, answer.Invented)}."
                        )
                );
            }
        );
    }

    private static VerbCommand List() =>
        new(
            "list",
            "The dossiers of others that are kept here, the newest first.",
            ["dossiers list"],
            [],
            async sitting =>
            {
                var kept = await DossierShelf.Beside(sitting.JournalPath).ListAsync(sitting.Cancellation);
                return sitting.Answer(
                    new DossiersAnswer([.. kept.Select(Json)]),
                    CliJson.Default.DossiersAnswer,
                    page =>
                    {
                        if (kept.Count == 0)
                        {
                            page.Line("None was taken in.");
                            return;
                        }

                        page.Table(
                            ["imported", "name", "by", "licence", "runs", "entries"],
                            kept.Select(dossier =>
                                (IReadOnlyList<string>)
                                    [
                                        dossier.Id[..ShortId],
                                        Titled(dossier.Title, dossier.IsInvented),
                                        dossier.By ?? "nobody named",
                                        dossier.Licence ?? "none chosen",
                                        $"{dossier.Runs}",
                                        $"{dossier.Entries}",
                                    ]
                            )
                        );
                    }
                );
            }
        );

    private static VerbCommand Remove()
    {
        var id = Slot.Word("DOSSIER", "The beginning of its name in the list, eight figures at least.");
        return new(
            "remove",
            "Remove a dossier of somebody else for good. Your journal stays as it is.",
            [],
            [id],
            async sitting =>
            {
                var wanted = id.Text(sitting.Parse)!;
                var shelf = DossierShelf.Beside(sitting.JournalPath);
                var found = (await shelf.ListAsync(sitting.Cancellation))
                    .Where(dossier =>
                        wanted.Length >= 8 && dossier.Id.StartsWith(wanted, StringComparison.Ordinal)
                    )
                    .ToList();
                if (found is not [var one])
                {
                    return sitting.NotUnderstood(
                        [new Remark("dossier-not-here", new Argument("typed", wanted))],
                        new Saying(sitting.Zone, null)
                    );
                }

                await shelf.RemoveAsync(one.Id, sitting.Cancellation);
                return sitting.Answer(
                    new DossierRemovedAnswer(one.Id, one.Title),
                    CliJson.Default.DossierRemovedAnswer,
                    page => page.Line($"Removed: {one.Title}.")
                );
            }
        );
    }

    private static string Titled(string title, bool isInvented) => isInvented ? $"{title} (invented)" : title;

    private static ForeignDossierJson Json(ShelvedDossier dossier) =>
        new(
            dossier.Id,
            dossier.Title,
            dossier.By,
            dossier.Licence,
            dossier.IsInvented,
            Saying.Iso(dossier.Taken),
            dossier.Runs,
            dossier.Entries,
            dossier.Bytes
        );
}
