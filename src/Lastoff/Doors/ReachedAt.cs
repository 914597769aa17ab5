using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace Lastoff.Doors;

/// <summary>Where another device reaches this server. Whoever sits at the machine itself calls it by a name that means another machine everywhere else.</summary>
internal sealed class ReachedAt(IServer server)
{
    /// <summary>The address asked for; on the machine itself one of the network, https first, if the server listens there.</summary>
    public string For(HttpContext context)
    {
        var asked = $"{context.Request.Scheme}://{context.Request.Host}";
        return new Uri(asked).IsLoopback ? OnTheNetwork() ?? asked : asked;
    }

    private string? OnTheNetwork() =>
        (from address in server.Features.Get<IServerAddressesFeature>()?.Addresses ?? []
         let listening = BindingAddress.Parse(address)
         let host = IsEverywhere(listening.Host) ? OwnAddress() : listening.Host
         where host is not null && !new Uri($"{listening.Scheme}://{host}").IsLoopback
         orderby listening.Scheme descending
         select $"{listening.Scheme}://{host}:{listening.Port}").FirstOrDefault();

    private static bool IsEverywhere(string host) =>
        host is "*" or "+" || (IPAddress.TryParse(host.Trim('[', ']'), out var address) && (address.Equals(IPAddress.Any) || address.Equals(IPAddress.IPv6Any)));

    private static string? OwnAddress() =>
        (from card in NetworkInterface.GetAllNetworkInterfaces()
         where card.OperationalStatus == OperationalStatus.Up
         from unicast in card.GetIPProperties().UnicastAddresses
         where unicast.Address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(unicast.Address)
         // A card that knows a way out is the one of the workshop's network.
         orderby card.GetIPProperties().GatewayAddresses.Count == 0
         select unicast.Address.ToString()).FirstOrDefault();
}
