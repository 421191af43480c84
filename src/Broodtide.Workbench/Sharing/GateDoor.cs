using Broodtide.Units;

namespace Broodtide.Workbench.Sharing;

/// <summary>What is asked at the gate, by its name on the way.</summary>
public static class GateRequest
{
    /// <summary>A phone comes and says what it holds.</summary>
    public const string Meet = "meet";

    /// <summary>A phone asks for what it lacks.</summary>
    public const string Lacking = "lacking";

    /// <summary>A phone gives entries of its own stores.</summary>
    public const string Give = "give";

    /// <summary>A phone brings entries of others.</summary>
    public const string Bring = "bring";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } = [Meet, Lacking, Give, Bring];
}

/// <summary>The gate for requests and answers that are bytes: whatever carries them need not know what they say.</summary>
/// <param name="gate">The gate.</param>
public sealed class GateDoor(Gate gate)
{
    /// <summary>Answers one request; a reason if it is refused.</summary>
    /// <param name="request">One of <see cref="GateRequest"/>.</param>
    /// <param name="visitor">Who asks.</param>
    /// <param name="body">What was sent.</param>
    /// <param name="cancellation">Gives up before anything is changed.</param>
    /// <exception cref="ArgumentException">There is no such request.</exception>
    public async Task<Parsed<byte[]>> AskAsync(
        string request,
        Visitor visitor,
        ReadOnlyMemory<byte> body,
        CancellationToken cancellation = default
    )
    {
        if (body.Length > BatchSize.MostBytes)
        {
            return No(gate.Refuse(visitor, Gate.TooBig(0)).Reason!);
        }

        switch (request)
        {
            case GateRequest.Meet:
                var meeting = SharingText.ReadMeeting(body);
                return meeting.Succeeded
                    ? Yes(
                        SharingText.Text(
                            await gate.MeetAsync(
                                visitor,
                                meeting.Value.Holdings,
                                meeting.Value.Report,
                                cancellation
                            )
                        )
                    )
                    : No(gate.Refuse(visitor, meeting.Reason).Reason!);
            case GateRequest.Lacking:
                var lacking = SharingText.ReadLacking(body);
                return lacking.Succeeded
                    ? Yes(
                        EntryBatch.Pack(
                            await gate.LackingAsync(lacking.Value.Holdings, lacking.Value.After, cancellation)
                        )
                    )
                    : No(gate.Refuse(visitor, lacking.Reason).Reason!);
            case GateRequest.Give or GateRequest.Bring:
                var giving = SharingText.ReadGiving(body);
                if (!giving.Succeeded)
                {
                    return No(gate.Refuse(visitor, giving.Reason).Reason!);
                }

                var accepted = await gate.GiveAsync(
                    visitor,
                    giving.Value.Entries,
                    request == GateRequest.Bring,
                    giving.Value.Report,
                    cancellation
                );
                return accepted.Succeeded ? Yes(SharingText.Text(accepted.Value)) : No(accepted.Reason);
            default:
                throw new ArgumentException("There is no such request.", nameof(request));
        }
    }

    /// <summary>A refusal as the bytes that are sent.</summary>
    public static byte[] TextOf(Remark reason) => SharingText.Text(reason);

    private static Parsed<byte[]> Yes(byte[] answer) => Parsed<byte[]>.Of(answer);

    private static Parsed<byte[]> No(Remark reason) => Parsed<byte[]>.No(reason);
}
