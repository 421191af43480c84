using NodaTime;

namespace Broodtide.Server.Addresses;

/// <summary>What one phone's store last said about itself.</summary>
/// <param name="Phone">How people know it.</param>
/// <param name="Waiting">How many entries waited there; none where it never said.</param>
/// <param name="At">When it said so.</param>
internal sealed record PhoneReport(string Phone, int? Waiting, Instant? At)
{
    /// <summary>Whether it may still hold what the server lacks.</summary>
    public bool MayHold => Waiting is not 0;
}
