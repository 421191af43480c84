using System.Text.Json.Serialization;

namespace Broodtide.Workbench.People;

/// <summary>What phone and server tell each other of people, as JSON without reflection.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true
)]
[JsonSerializable(typeof(FirstAsked))]
[JsonSerializable(typeof(SignInAsked))]
[JsonSerializable(typeof(CodeAsked))]
[JsonSerializable(typeof(JoinAsked))]
[JsonSerializable(typeof(InviteAsked))]
[JsonSerializable(typeof(RoleAsked))]
[JsonSerializable(typeof(PassphraseAsked))]
[JsonSerializable(typeof(DoorSeen))]
[JsonSerializable(typeof(WaysSeen))]
[JsonSerializable(typeof(HouseSeen))]
[JsonSerializable(typeof(InvitationMade))]
[JsonSerializable(typeof(InvitationSeen))]
[JsonSerializable(typeof(IReadOnlyList<SessionSeen>))]
[JsonSerializable(typeof(PersonSeen))]
[JsonSerializable(typeof(TokenSeen))]
[JsonSerializable(typeof(BackupsSeen))]
[JsonSerializable(typeof(Refused))]
public sealed partial class PeopleJson : JsonSerializerContext;
