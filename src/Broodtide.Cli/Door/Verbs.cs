using System.CommandLine;
using Broodtide.Cli.Adults;
using Broodtide.Cli.Ahead;
using Broodtide.Cli.BadDays;
using Broodtide.Cli.Comparing;
using Broodtide.Cli.Counting;
using Broodtide.Cli.Dossiers;
using Broodtide.Cli.Feeding;
using Broodtide.Cli.Journal;
using Broodtide.Cli.Looking;
using Broodtide.Cli.OldNotes;
using Broodtide.Cli.Photos;
using Broodtide.Cli.Review;
using Broodtide.Cli.Runs;
using Broodtide.Cli.Sensors;
using Broodtide.Cli.Settling;
using Broodtide.Cli.Species;
using Broodtide.Cli.Trials;
using Broodtide.Cli.Water;
using Broodtide.Cli.WhatIf;
using Broodtide.Cli.Writing;

namespace Broodtide.Cli.Door;

/// <summary>A verb that is made when it is called for: making all of them takes longer than many a call.</summary>
/// <param name="Word">What it is called by.</param>
/// <param name="Make">Makes it, with its places and examples.</param>
internal readonly record struct Verb(string Word, Func<Command> Make);

/// <summary>All verbs, in the order in which help tells them.</summary>
internal static class Verbs
{
    public static IReadOnlyList<Verb> All { get; } =
    [
        new("write", WriteVerb.Make),
        new("correct", CorrectVerb.Make),
        new("take-back", TakeBackVerb.Make),
        new("erase", EraseVerb.Make),
        new("journal", JournalVerb.Make),
        new("photo", PhotoVerb.Make),
        new("look", LookVerb.Make),
        new("names", NamesVerb.Make),
        new("due", DueVerb.Make),
        new("calendar", CalendarVerb.Make),
        new("hatch", HatchVerb.Make),
        new("tonight", TonightVerb.Make),
        new("collect-times", CollectTimesVerb.Make),
        new("adults", AdultsVerb.Make),
        new("animal", AnimalVerb.Make),
        new("buy", BuyVerb.Make),
        new("shares", SharesVerb.Make),
        new("after-loss", AfterLossVerb.Make),
        new("dropped-eggs", DroppedEggsVerb.Make),
        new("plan", PlanVerb.Make),
        new("foretell", ForetellVerb.Make),
        new("ledger", LedgerVerb.Make),
        new("safety", SafetyVerb.Make),
        new("advise", AdviseVerb.Make),
        new("scores", ScoresVerb.Make),
        new("alive", AliveVerb.Make),
        new("aliquots", AliquotsVerb.Make),
        new("whatif", WhatIfVerb.Make),
        new("badday", BadDayVerb.Make),
        new("answers", AnswersVerb.Make),
        new("runs", RunsVerb.Make),
        new("run", RunVerb.Make),
        new("review", ReviewVerb.Make),
        // Before comparing: what it lays out is compared.
        new("trial", TrialVerb.Make),
        new("compare", CompareVerb.Make),
        new("notes", NotesVerb.Make),
        new("sensors", SensorsVerb.Make),
        new("dossier", DossierVerb.Make),
        new("dossiers", DossiersVerb.Make),
        new("hindsight", HindsightVerb.Make),
        new("water", WaterVerb.Make),
        new("crossing", CrossingVerb.Make),
        new("return", ReturnVerb.Make),
        new("food", FoodVerb.Make),
        new("cultures", CulturesVerb.Make),
        new("species", SpeciesVerb.Make),
        new("export", ExportVerb.Make),
        new("import", ImportVerb.Make),
        new("sync", SyncVerb.Make),
        new("backup", BackupVerb.Make),
        new("restore", RestoreVerb.Make),
        new("verify", VerifyVerb.Make),
        new("demo", DemoVerb.Make),
    ];

    /// <summary>
    /// Those that a call can speak of: every one whose word stands in it. A call in which no verb stands is about all, except
    /// for one that asks for the version.
    /// </summary>
    public static IReadOnlyList<Verb> In(IReadOnlyList<string> call)
    {
        var spoken = All.Where(verb => call.Contains(verb.Word, StringComparer.Ordinal)).ToList();
        return spoken.Count > 0 || call is ["--version"] ? spoken : All;
    }
}
