using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Data.Common;
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
using Broodtide.Storage;
using Broodtide.Units;

namespace Broodtide.Cli.Door;

/// <summary>The program as a whole: from the words of a call to an exit code.</summary>
internal static class CommandLine
{
    /// <summary>Runs one call.</summary>
    public static async Task<int> RunAsync(
        IReadOnlyList<string> args,
        Surroundings surroundings,
        CancellationToken cancellation = default
    )
    {
        var global = new GlobalOptions();
        var root = Root(global);
        // A response file would read "@5" as a file's name.
        var parse = root.Parse(
            args.Count == 0 ? ["--help"] : args,
            new ParserConfiguration { ResponseFileTokenReplacer = null }
        );
        var command = parse.CommandResult.Command;
        // Help and version come before what is missing.
        var asksForHelp =
            parse.Action is not null
            && !ReferenceEquals(parse.Action, command.Action)
            && parse.Action is not ParseErrorAction;
        var sitting = new Sitting(parse, global, surroundings, cancellation);
        try
        {
            if (asksForHelp)
            {
                var code = await parse.InvokeAsync(
                    new InvocationConfiguration
                    {
                        Output = surroundings.Out,
                        Error = surroundings.Error,
                        EnableDefaultExceptionHandler = false,
                    },
                    cancellation
                );
                if (parse.Action is HelpAction)
                {
                    PrintExamples(surroundings.Out, command);
                }

                return code;
            }

            if (parse.Errors.Count > 0 || command is not VerbCommand verb)
            {
                return sitting.NotUnderstood([
                    .. parse
                        .Errors.Select(error => error.Message)
                        .Distinct(StringComparer.Ordinal)
                        .Select(message => new Remark(
                            "call-not-understood",
                            new Argument("message", message)
                        )),
                    new Remark("call-wanted", new Argument("wanted", Wanted(command))),
                ]);
            }

            return sitting.Wrong.Count > 0 ? sitting.NotUnderstood(sitting.Wrong) : await verb.Act(sitting);
        }
        catch (StoreUnusableException unusable)
        {
            return sitting.NotUnderstood([unusable.Reason]);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or DbException)
        {
            return sitting.NotUnderstood([
                new Remark("outside-failed", new Argument("message", OneLine(failure.Message))),
            ]);
        }
        catch (OperationCanceledException)
        {
            return sitting.NotUnderstood([new Remark("broken-off")]);
        }
        catch (Exception fault)
        {
            return sitting.NotUnderstood([
                new Remark(
                    "fault-of-this-program",
                    new("type", fault.GetType().Name),
                    new("message", OneLine(fault.Message))
                ),
            ]);
        }
        finally
        {
            await sitting.DisposeAsync();
        }
    }

    /// <summary>All verbs.</summary>
    public static RootCommand Root(GlobalOptions global)
    {
        var root = new RootCommand(
            "Broodtide carries one brood of an amphidromous shrimp from a berried female to juveniles in fresh water:\n"
                + "it keeps the journal, tells what is due, and does the water arithmetic.\n\n"
                + "Exit codes: 0 done, 1 a rule says no or something is asked back, 2 not understood."
        );
        global.AddTo(root);
        root.Subcommands.Add(WriteVerb.Make());
        root.Subcommands.Add(CorrectVerb.Make());
        root.Subcommands.Add(TakeBackVerb.Make());
        root.Subcommands.Add(EraseVerb.Make());
        root.Subcommands.Add(JournalVerb.Make());
        root.Subcommands.Add(PhotoVerb.Make());
        root.Subcommands.Add(LookVerb.Make());
        root.Subcommands.Add(NamesVerb.Make());
        root.Subcommands.Add(DueVerb.Make());
        root.Subcommands.Add(CalendarVerb.Make());
        root.Subcommands.Add(HatchVerb.Make());
        root.Subcommands.Add(TonightVerb.Make());
        root.Subcommands.Add(CollectTimesVerb.Make());
        root.Subcommands.Add(AdultsVerb.Make());
        root.Subcommands.Add(AnimalVerb.Make());
        root.Subcommands.Add(BuyVerb.Make());
        root.Subcommands.Add(SharesVerb.Make());
        root.Subcommands.Add(AfterLossVerb.Make());
        root.Subcommands.Add(DroppedEggsVerb.Make());
        root.Subcommands.Add(PlanVerb.Make());
        root.Subcommands.Add(ForetellVerb.Make());
        root.Subcommands.Add(LedgerVerb.Make());
        root.Subcommands.Add(SafetyVerb.Make());
        root.Subcommands.Add(AdviseVerb.Make());
        root.Subcommands.Add(ScoresVerb.Make());
        root.Subcommands.Add(AliveVerb.Make());
        root.Subcommands.Add(AliquotsVerb.Make());
        root.Subcommands.Add(WhatIfVerb.Make());
        root.Subcommands.Add(BadDayVerb.Make());
        root.Subcommands.Add(AnswersVerb.Make());
        root.Subcommands.Add(RunsVerb.Make());
        root.Subcommands.Add(RunVerb.Make());
        root.Subcommands.Add(ReviewVerb.Make());
        // Before comparing: what it lays out is compared.
        root.Subcommands.Add(TrialVerb.Make());
        root.Subcommands.Add(CompareVerb.Make());
        root.Subcommands.Add(NotesVerb.Make());
        root.Subcommands.Add(SensorsVerb.Make());
        root.Subcommands.Add(DossierVerb.Make());
        root.Subcommands.Add(DossiersVerb.Make());
        root.Subcommands.Add(HindsightVerb.Make());
        root.Subcommands.Add(WaterVerb.Make());
        root.Subcommands.Add(CrossingVerb.Make());
        root.Subcommands.Add(ReturnVerb.Make());
        root.Subcommands.Add(FoodVerb.Make());
        root.Subcommands.Add(CulturesVerb.Make());
        root.Subcommands.Add(SpeciesVerb.Make());
        root.Subcommands.Add(ExportVerb.Make());
        root.Subcommands.Add(ImportVerb.Make());
        root.Subcommands.Add(SyncVerb.Make());
        root.Subcommands.Add(BackupVerb.Make());
        root.Subcommands.Add(RestoreVerb.Make());
        root.Subcommands.Add(VerifyVerb.Make());
        root.Subcommands.Add(DemoVerb.Make());
        return root;
    }

    private static void PrintExamples(TextWriter output, Command command)
    {
        IReadOnlyList<string> examples = command switch
        {
            VerbCommand verb => verb.Examples,
            RootCommand => ["demo demo.broodtide", "due --journal demo.broodtide"],
            _ => [],
        };
        if (examples.Count > 0)
        {
            output.WriteLine("Examples:");
        }

        foreach (var example in examples)
        {
            output.WriteLine($"  broodtide {example}");
        }
    }

    // The words and places of a command, as they are typed.
    private static string Wanted(Command command)
    {
        var words = new List<string>(command.Arguments.Select(argument => argument.Name));
        if (command.Subcommands.Count > 0)
        {
            words.Add("VERB");
        }

        for (var at = command; at is not null; at = at.Parents.OfType<Command>().FirstOrDefault())
        {
            words.Insert(0, at is RootCommand ? "broodtide" : at.Name);
        }

        return string.Join(' ', words);
    }

    private static string OneLine(string message) => message.ReplaceLineEndings(" ");
}
