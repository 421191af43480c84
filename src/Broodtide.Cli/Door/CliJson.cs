using System.Text.Json.Serialization;
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

/// <summary>How results are written for machines: one shape a verb, names that end with their unit.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    WriteIndented = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull
)]
[JsonSerializable(typeof(NoAnswer))]
[JsonSerializable(typeof(WrittenAnswer))]
[JsonSerializable(typeof(AskedAnswer))]
[JsonSerializable(typeof(JournalAnswer))]
[JsonSerializable(typeof(NamesAnswer))]
[JsonSerializable(typeof(PhotoListAnswer))]
[JsonSerializable(typeof(PhotoSavedAnswer))]
[JsonSerializable(typeof(LookCountAnswer))]
[JsonSerializable(typeof(LookSetupsAnswer))]
[JsonSerializable(typeof(LookLengthsAnswer))]
[JsonSerializable(typeof(LookPulseAnswer))]
[JsonSerializable(typeof(LookSwimAnswer))]
[JsonSerializable(typeof(LookLabelledAnswer))]
[JsonSerializable(typeof(LookCellsAnswer))]
[JsonSerializable(typeof(LookScaleAnswer))]
[JsonSerializable(typeof(LookLengthAnswer))]
[JsonSerializable(typeof(LookMergeAnswer))]
[JsonSerializable(typeof(ExportAnswer))]
[JsonSerializable(typeof(ImportAnswer))]
[JsonSerializable(typeof(SyncAnswer))]
[JsonSerializable(typeof(BackupAnswer))]
[JsonSerializable(typeof(RestoreAnswer))]
[JsonSerializable(typeof(VerifyAnswer))]
[JsonSerializable(typeof(VerifyBackupAnswer))]
[JsonSerializable(typeof(DemoAnswer))]
[JsonSerializable(typeof(DueAnswer))]
[JsonSerializable(typeof(CalendarAnswer))]
[JsonSerializable(typeof(PlanAnswer))]
[JsonSerializable(typeof(HatchAnswer))]
[JsonSerializable(typeof(AdultsAnswer))]
[JsonSerializable(typeof(AnimalAnswer))]
[JsonSerializable(typeof(BuyAnswer))]
[JsonSerializable(typeof(TonightAnswer))]
[JsonSerializable(typeof(SharesAnswer))]
[JsonSerializable(typeof(AfterLossAnswer))]
[JsonSerializable(typeof(CollectTimesAnswer))]
[JsonSerializable(typeof(LedgerAnswer))]
[JsonSerializable(typeof(AliveAnswer))]
[JsonSerializable(typeof(AliquotsAnswer))]
[JsonSerializable(typeof(WhatIfAnswerJson))]
[JsonSerializable(typeof(HeatAnswer))]
[JsonSerializable(typeof(PowerAnswer))]
[JsonSerializable(typeof(AwayAnswer))]
[JsonSerializable(typeof(SickAnswer))]
[JsonSerializable(typeof(DroppedEggsAnswer))]
[JsonSerializable(typeof(LearnedAnswer))]
[JsonSerializable(typeof(TrialPlanAnswer))]
[JsonSerializable(typeof(TrialLabelsAnswer))]
[JsonSerializable(typeof(TrialNextAnswer))]
[JsonSerializable(typeof(RunsAnswer))]
[JsonSerializable(typeof(RunAnswer))]
[JsonSerializable(typeof(ReviewAnswer))]
[JsonSerializable(typeof(ComparedJson))]
[JsonSerializable(typeof(DosesAnswer))]
[JsonSerializable(typeof(LivesAnswer))]
[JsonSerializable(typeof(VesselsAnswer))]
[JsonSerializable(typeof(NotesSurveyAnswer))]
[JsonSerializable(typeof(NotesTakenAnswer))]
[JsonSerializable(typeof(SensorsAnswer))]
[JsonSerializable(typeof(SensorsTakenAnswer))]
[JsonSerializable(typeof(SensorSetAnswer))]
[JsonSerializable(typeof(SensorHoursAnswer))]
[JsonSerializable(typeof(SensorAlarmsAnswer))]
[JsonSerializable(typeof(SensorAlarmSeenAnswer))]
[JsonSerializable(typeof(DossierAnswer))]
[JsonSerializable(typeof(DossiersAnswer))]
[JsonSerializable(typeof(DossierTakenAnswer))]
[JsonSerializable(typeof(DossierRemovedAnswer))]
[JsonSerializable(typeof(DossierRecomputedAnswer))]
[JsonSerializable(typeof(HindsightAnswer))]
[JsonSerializable(typeof(MakeAnswer))]
[JsonSerializable(typeof(CorrectAnswer))]
[JsonSerializable(typeof(BlendAnswer))]
[JsonSerializable(typeof(ReadsAnswer))]
[JsonSerializable(typeof(StandardAnswer))]
[JsonSerializable(typeof(SteriliseAnswer))]
[JsonSerializable(typeof(DoseAnswer))]
[JsonSerializable(typeof(AmmoniaAnswer))]
[JsonSerializable(typeof(SafetyAnswer))]
[JsonSerializable(typeof(AdviseAnswer))]
[JsonSerializable(typeof(ScoresAnswer))]
[JsonSerializable(typeof(OsmolalityAnswer))]
[JsonSerializable(typeof(CrossingAnswerJson))]
[JsonSerializable(typeof(WatchAnswer))]
[JsonSerializable(typeof(ReturnAnswer))]
[JsonSerializable(typeof(NurseryAnswer))]
[JsonSerializable(typeof(CardAnswer))]
[JsonSerializable(typeof(SurvivalAnswer))]
[JsonSerializable(typeof(CountCellsAnswer))]
[JsonSerializable(typeof(MediumAnswer))]
[JsonSerializable(typeof(EqualAnswer))]
[JsonSerializable(typeof(RationAnswer))]
[JsonSerializable(typeof(LiveFoodAnswer))]
[JsonSerializable(typeof(ScaleUpAnswer))]
[JsonSerializable(typeof(CulturesAnswer))]
[JsonSerializable(typeof(SpeciesAnswer))]
internal sealed partial class CliJson : JsonSerializerContext;
