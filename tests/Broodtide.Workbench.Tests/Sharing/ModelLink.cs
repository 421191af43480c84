using System.Text;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>What may happen to one request on its way.</summary>
internal enum OnTheWay
{
    Well,
    RequestLost,
    AnswerLost,
    Doubled,
    Late,
}

/// <summary>
/// The way from one phone to the house, with the luck of the road. A request that is late is done at some later
/// time, when the phone has long given up waiting for it.
/// </summary>
internal sealed class ModelLink(
    Func<Visitor, string, byte[], Task<byte[]>> house,
    Func<Visitor> visitor,
    Func<OnTheWay> luck,
    bool liesOfTaking
) : IServerLink
{
    private readonly List<(Visitor Visitor, string Request, byte[] Body)> _late = [];

    public async Task<byte[]> AskAsync(string request, byte[] body, CancellationToken cancellation = default)
    {
        switch (luck())
        {
            case OnTheWay.RequestLost when liesOfTaking && request is GateRequest.Give:
                return Encoding.UTF8.GetBytes("""{"new":0,"known":0,"heldBack":0}""");
            case OnTheWay.RequestLost:
                throw new HouseAwayException();
            case OnTheWay.AnswerLost:
                await house(visitor(), request, body);
                throw new HouseAwayException();
            case OnTheWay.Doubled:
                await house(visitor(), request, body);
                return await house(visitor(), request, body);
            case OnTheWay.Late:
                _late.Add((visitor(), request, body));
                throw new HouseAwayException();
            default:
                return await house(visitor(), request, body);
        }
    }

    /// <summary>Late requests arrive, the last first.</summary>
    public async Task ArriveAsync()
    {
        for (var at = _late.Count - 1; at >= 0; at--)
        {
            try
            {
                await house(_late[at].Visitor, _late[at].Request, _late[at].Body);
            }
            catch (HouseRefusedException)
            {
                // Nobody hears of it any more.
            }
        }

        _late.Clear();
    }
}
