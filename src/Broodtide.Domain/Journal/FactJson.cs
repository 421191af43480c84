using System.Text.Json.Serialization;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Domain.Journal;

/// <summary>How bodies are written and read: generated code, so that it works trimmed in the browser.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    AllowDuplicateProperties = false,
    Converters = [typeof(InstantConverter)]
)]
[JsonSerializable(typeof(AnimalAcquired))]
[JsonSerializable(typeof(AnimalMoulted))]
[JsonSerializable(typeof(AnimalMoved))]
[JsonSerializable(typeof(AnimalDied))]
[JsonSerializable(typeof(AnimalSeenEmpty))]
[JsonSerializable(typeof(AnimalSeenBerried))]
[JsonSerializable(typeof(EggsObserved))]
[JsonSerializable(typeof(EggsDropped))]
[JsonSerializable(typeof(AnimalIsolated))]
[JsonSerializable(typeof(AnimalReturned))]
[JsonSerializable(typeof(HatchingSeen))]
[JsonSerializable(typeof(CollectionMade))]
[JsonSerializable(typeof(CrossingMade))]
[JsonSerializable(typeof(CountMade))]
[JsonSerializable(typeof(DeadRemoved))]
[JsonSerializable(typeof(StageSampleTaken))]
[JsonSerializable(typeof(LarvaeMeasured))]
[JsonSerializable(typeof(CohortsMoved))]
[JsonSerializable(typeof(CohortsMerged))]
[JsonSerializable(typeof(CohortSplit))]
[JsonSerializable(typeof(SettlementSeen))]
[JsonSerializable(typeof(JuvenilesReturned))]
[JsonSerializable(typeof(JuvenilesCounted))]
[JsonSerializable(typeof(JuvenilesGivenAway))]
[JsonSerializable(typeof(SurvivalHeard))]
[JsonSerializable(typeof(TrialLaidOut))]
[JsonSerializable(typeof(ReadingTaken))]
[JsonSerializable(typeof(InstrumentDescribed))]
[JsonSerializable(typeof(InstrumentCalibrated))]
[JsonSerializable(typeof(VesselSetUp))]
[JsonSerializable(typeof(VesselFilled))]
[JsonSerializable(typeof(VesselEmptied))]
[JsonSerializable(typeof(VesselDisinfected))]
[JsonSerializable(typeof(WaterMoved))]
[JsonSerializable(typeof(VesselSiphoned))]
[JsonSerializable(typeof(VesselFed))]
[JsonSerializable(typeof(LightChanged))]
[JsonSerializable(typeof(FeedDescribed))]
[JsonSerializable(typeof(CultureDescribed))]
[JsonSerializable(typeof(CultureHarvested))]
[JsonSerializable(typeof(VesselLookedAt))]
[JsonSerializable(typeof(CellsCounted))]
[JsonSerializable(typeof(AirChanged))]
[JsonSerializable(typeof(HeaterChanged))]
[JsonSerializable(typeof(FilterChanged))]
[JsonSerializable(typeof(RunStarted))]
[JsonSerializable(typeof(RunEnded))]
[JsonSerializable(typeof(PowerFailed))]
[JsonSerializable(typeof(PowerRestored))]
[JsonSerializable(typeof(KeeperLeft))]
[JsonSerializable(typeof(KeeperReturned))]
[JsonSerializable(typeof(ActionDone))]
[JsonSerializable(typeof(ActionSkipped))]
[JsonSerializable(typeof(NoteWritten))]
[JsonSerializable(typeof(PhotoAdded))]
[JsonSerializable(typeof(ForecastIssued))]
[JsonSerializable(typeof(WaterForetold))]
[JsonSerializable(typeof(ProfileValueChosen))]
[JsonSerializable(typeof(EntryTakenBack))]
internal sealed partial class FactJson : JsonSerializerContext;
