#include "network_parts.hpp"

#include <cmath>

namespace padwalk::circulation
{

Rings::Rings(Network const& network, std::vector<bool> const& open)
    : network_(&network), branch_(network.nodes.size()), reached_(network.nodes.size(), false),
      passages_(network.links.size())
{
    grow_tree(open);
    find_passages();
}

void Rings::grow_tree(std::vector<bool> const& open)
{
    auto const& links = network_->links;
    for (std::size_t n = 0; n < network_->nodes.size(); ++n)
        if (network_->nodes[n].level)
        {
            reached_[n] = true;
            order_.push_back(n);
        }
    std::vector<bool> in_tree(links.size(), false);
    for (std::size_t i = 0; i < order_.size(); ++i)
        for (std::size_t l = 0; l < links.size(); ++l)
        {
            std::size_t const here = order_[i];
            if (!open[l] || (links[l].from != here && links[l].to != here))
                continue;
            bool const along = links[l].from == here;
            std::size_t const there = along ? links[l].to : links[l].from;
            if (reached_[there])
                continue;
            reached_[there] = true;
            in_tree[l] = true;
            branch_[there] = {l, here, along ? 1.0 : -1.0};
            order_.push_back(there);
        }
    for (std::size_t l = 0; l < links.size(); ++l)
        if (open[l] && !in_tree[l] && reached_[links[l].from])
            closing_.push_back(l);
}

void Rings::find_passages()
{
    for (std::size_t r = 0; r < closing_.size(); ++r)
    {
        std::vector<double> carried(network_->links.size(), 0.0);
        auto const& closing = network_->links[closing_[r]];
        carried[closing_[r]] = 1;
        auto const walk = [&](std::size_t node, double need)
        {
            for (; branch_[node].link != none; node = branch_[node].parent)
                carried[branch_[node].link] += need * branch_[node].sign;
        };
        walk(closing.from, 1);
        walk(closing.to, -1);
        for (std::size_t l = 0; l < carried.size(); ++l)
            if (carried[l] != 0)
                passages_[l].push_back({r, carried[l]});
    }
}

void Rings::flows(std::vector<double> const& round, std::vector<double>& flow) const
{
    for (std::size_t l = 0; l < flow.size(); ++l)
    {
        flow[l] = 0;
        for (auto const& p : passages_[l])
            flow[l] += p.sign * round[p.ring];
    }
}

void Rings::heads(std::vector<Drop> const& drops, std::vector<double>& head) const
{
    for (std::size_t n : order_)
    {
        Branch const& b = branch_[n];
        head[n] =
            b.link == none ? units::in_si(*network_->nodes[n].level) : head[b.parent] - b.sign * drops[b.link].head;
    }
}

void Rings::errors(std::vector<Drop> const& drops, std::vector<double> const& head, std::vector<double>& error) const
{
    for (std::size_t r = 0; r < closing_.size(); ++r)
    {
        auto const& link = network_->links[closing_[r]];
        error[r] = drops[closing_[r]].head - (head[link.from] - head[link.to]);
    }
}

void Rings::curvature(std::vector<Drop> const& drops, std::vector<double>& matrix) const
{
    // A square law is flat at no flow; the floor keeps the step finite there and moves no solution.
    constexpr double least_slope = 1e-4;
    std::size_t const n = size();
    matrix.assign(n * n, 0.0);
    for (std::size_t l = 0; l < passages_.size(); ++l)
        for (auto const& a : passages_[l])
            for (auto const& b : passages_[l])
                matrix[a.ring * n + b.ring] += a.sign * b.sign * std::fmax(drops[l].slope, least_slope);
}

bool solve_definite(std::vector<double>& matrix, std::vector<double>& right)
{
    std::size_t const n = right.size();
    auto at = [&](std::size_t i, std::size_t j) -> double& { return matrix[i * n + j]; };
    for (std::size_t j = 0; j < n; ++j) // Cholesky: L below and on the diagonal
    {
        for (std::size_t k = 0; k < j; ++k)
            at(j, j) -= at(j, k) * at(j, k);
        if (!(at(j, j) > 0))
            return false;
        at(j, j) = std::sqrt(at(j, j));
        for (std::size_t i = j + 1; i < n; ++i)
        {
            for (std::size_t k = 0; k < j; ++k)
                at(i, j) -= at(i, k) * at(j, k);
            at(i, j) /= at(j, j);
        }
    }
    for (std::size_t i = 0; i < n; ++i)
    {
        for (std::size_t k = 0; k < i; ++k)
            right[i] -= at(i, k) * right[k];
        right[i] /= at(i, i);
    }
    for (std::size_t i = n; i-- > 0;)
    {
        for (std::size_t k = i + 1; k < n; ++k)
            right[i] -= at(k, i) * right[k];
        right[i] /= at(i, i);
    }
    return true;
}

} // namespace padwalk::circulation
