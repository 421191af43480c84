using System.Text.Json.Serialization;

namespace Broodtide.Server.Operating;

[JsonSerializable(typeof(string))]
internal sealed partial class OperatingJson : JsonSerializerContext;
